import { type Point, add, distance, polar, scale, subtract } from '@fayplate/core';
import type { Layer, Shape, Stroke } from '../types.js';
import { line, polygon } from './shapes.js';

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

/** A line with a filled head at `to`; the head is `head` mm long and a third as wide (about 20°). */
export const arrow = (layer: Layer, from: Point, to: Point, stroke: Stroke, head = 3): readonly Shape[] => {
  const length = distance(from, to);
  if (length === 0) return [];
  const along = scale(subtract(to, from), 1 / length);
  const size = Math.min(head, length);
  const base = add(to, scale(along, -size));
  const side = polar(size / 6, Math.atan2(along.y, along.x) + Math.PI / 2);
  return [
    line(layer, from, base, stroke),
    polygon(layer, [to, add(base, side), subtract(base, side)], null, stroke.grey),
  ];
};

/**
 * Four arms from `open` to `reach` mm out of the centre: the point itself stays bare, so that a punch set on it can be
 * seen.
 */
export const crossHair = (
  layer: Layer,
  centre: Point,
  arms: { readonly open: number; readonly reach: number },
  stroke: Stroke,
): readonly Shape[] =>
  [
    { x: 1, y: 0 },
    { x: 0, y: 1 },
    { x: -1, y: 0 },
    { x: 0, y: -1 },
  ].map((d) => {
    const out = (k: number): Point => ({ x: centre.x + k * d.x, y: centre.y + k * d.y });
    return line(layer, out(arms.open), out(arms.reach), stroke);
  });
