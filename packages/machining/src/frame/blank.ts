import { type Motion, type Path, type Point, movePath, pathBox } from '@fayplate/core';
import type { MachineSpec } from '@fayplate/job';
import type { Blank } from '../types.js';

const corners = ['lower left', 'lower right', 'upper left', 'upper right'] as const;
export type Corner = (typeof corners)[number];

/** `lower left corner`, `corner` (the lower left) and the like, `of the blank` or not; null for anything else. */
export const cornerOf = (text: string): Corner | null => {
  const m = /^(?:(lower|upper) (left|right) )?corner(?: of the blank)?$/.exec(text.trim());
  if (m === null) return null;
  return corners.find((c) => c === `${m[1] ?? 'lower'} ${m[2] ?? 'left'}`) ?? null;
};

/** The blank, sides along the axes that `motion` leads to: the shop's own, with the plate in its middle, or the smallest that holds the outline. Null where the shop's is too small. */
export const blankAround = (outline: Path, motion: Motion, machine: MachineSpec | null): Blank | null => {
  const box = pathBox(movePath(motion, outline));
  const width = box.right - box.left;
  const height = box.top - box.bottom;
  const own = machine?.blank ?? null;
  if (own === null) return { left: box.left, bottom: box.bottom, width, height, from: 'outline' };
  if (own.width < width - 1e-9 || own.height < height - 1e-9) return null;
  return {
    left: box.left - (own.width - width) / 2,
    bottom: box.bottom - (own.height - height) / 2,
    width: own.width,
    height: own.height,
    from: 'job',
  };
};

export const cornerPoint = (blank: Blank, corner: Corner): Point => ({
  x: blank.left + (corner.endsWith('right') ? blank.width : 0),
  y: blank.bottom + (corner.startsWith('upper') ? blank.height : 0),
});
