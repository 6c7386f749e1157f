import type { Point } from '@fayplate/core';
import type { Desk } from '../desk.js';
import { cutPockets } from '../treat/cuts.js';
import type { PlateBore, PlateHole } from '../types.js';
import { type Register, registers } from './registers.js';
import { reliefs } from './relief.js';
import { withinBore } from './shape.js';

interface BoresMade {
  readonly bores: readonly PlateBore[];
  /** Pockets for what stands out of the parts, where the plate lies over it. */
  readonly pockets: readonly PlateBore[];
  readonly faults: readonly string[];
}

/**
 * Central bore and registers, C1 onward in that order, then the job's own pockets and its notches, and after them the
 * pockets that may be wanted.
 */
export const makeBores = (desk: Desk, notches: readonly Register[]): BoresMade => {
  const asked = desk.spec.bore;
  const central: readonly Register[] =
    asked === null
      ? []
      : [
          {
            kind: 'bore',
            feature: null,
            part: null,
            ...(desk.mated[0].axis?.at ?? { x: 0, y: 0 }),
            diameter: asked.diameter,
            limits: null,
            side: asked.side,
            depth: asked.side === 'through' ? null : asked.depth,
          },
        ];
  const { registers: made, faults } = registers(desk);
  const own = cutPockets(desk);
  const open = [...central, ...made, ...own.pockets, ...notches];
  const number = (b: Register, i: number): PlateBore => ({ id: `C${i + 1}`, ...b });
  return {
    bores: open.map(number),
    pockets: reliefs(desk, open).map((b, i) => number(b, open.length + i)),
    faults: [...faults, ...own.faults],
  };
};

/**
 * z of the metal at a point: from 0 to the thickness, less the pocket or recess that the point lies in, more the raised
 * spigot that it lies under. In an opening that goes through there is none: both ends are the same.
 */
export const landAt = (p: Point, bores: readonly PlateBore[], thickness: number): readonly [number, number] => {
  let low = 0;
  let high = thickness;
  const over = bores.filter((b) => withinBore(p, b) > 0);
  if (over.some((b) => b.kind !== 'spigot' && b.depth === null)) return [0, 0];
  for (const b of over) {
    if (b.kind === 'spigot') {
      if (b.side === 'A') low = Math.min(low, -(b.depth ?? 0));
      else high = Math.max(high, thickness + (b.depth ?? 0));
    } else if (b.depth !== null && b.side === 'A') low = Math.max(low, b.depth);
    else if (b.depth !== null) high = Math.min(high, thickness - b.depth);
  }
  return [low, Math.max(low, high)];
};

/** A hole or slot that fastens nothing, as an opening like a bore. */
const asOpening = ({ id, x, y, diameter, slot, from, depth }: PlateHole): PlateBore => ({
  id,
  kind: 'bore',
  feature: null,
  part: null,
  x,
  y,
  diameter,
  limits: null,
  side: depth === null ? 'through' : from,
  depth,
  ...(slot === null
    ? {}
    : {
        box: {
          length: slot.length + diameter,
          width: diameter,
          corner: diameter / 2,
          angle: slot.angle,
          behind: (slot.length + diameter) / 2,
        },
      }),
});

/** What a shaft may pass: bores, pockets and recesses, and the holes and slots that fasten nothing. */
export const openingsOf = (bores: readonly PlateBore[], holes: readonly PlateHole[]): readonly PlateBore[] => [
  ...bores.filter((b) => b.kind !== 'spigot'),
  ...holes.filter((h) => h.as === 'cut').map(asOpening),
];

/** Openings that go right through the plate at a point: each cut that does, or two from both sides that meet. */
export const throughAt = (p: Point, bores: readonly PlateBore[], thickness: number): readonly PlateBore[] => {
  const open = bores.filter((b) => b.kind !== 'spigot' && withinBore(p, b) > 0);
  const depth = (side: 'A' | 'B'): number =>
    Math.max(0, ...open.filter((b) => b.side === side).map((b) => b.depth ?? thickness));
  const meet = depth('A') + depth('B') >= thickness - 1e-9;
  return open.filter((b) => b.side === 'through' || b.depth === null || b.depth >= thickness - 1e-9 || meet);
};
