import type { Stroke } from '../types.js';

const solid = (width: number): Stroke => ({ width, dash: [], grey: 0 });
/** Lengths in line widths. */
const broken = (width: number, ...lengths: readonly number[]): Stroke => ({
  width,
  dash: lengths.map((n) => n * width),
  grey: 0,
});

/**
 * The kinds of line of a technical drawing: wide and narrow in the ratio 2 : 1, dashed for what is hidden,
 * long-dashed dotted for centre lines, long-dashed double-dotted for the part that lies behind
 * (kinds and lengths after ISO 128, from memory).
 */
export const pens = {
  /** Visible outline, edge to be cut. */
  wide: solid(0.5),
  narrow: solid(0.25),
  /** Leaders, fine scales, grids. */
  hair: solid(0.13),
  hidden: broken(0.25, 12, 3),
  centre: broken(0.18, 24, 3, 0.5, 3),
  behind: broken(0.25, 24, 3, 0.5, 3, 0.5, 3),
  /** Where paper is cut. */
  cutLine: broken(0.25, 6, 6),
} as const satisfies Record<string, Stroke>;

/** The same pen in a lighter tone: 0 black … 1 white. */
export const inGrey = (stroke: Stroke, grey: number): Stroke => ({ ...stroke, grey });
