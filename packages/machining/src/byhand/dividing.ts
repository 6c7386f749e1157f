import { type Point, heading, norm, subtract } from '@fayplate/core';
import type { Plate } from '@fayplate/plate';

/** One index of a dividing head or rotary table from its zero. */
export interface Indexing {
  readonly turns: number;
  readonly holes: number;
  /** Holes in the index circle; null where whole turns do. */
  readonly circle: number | null;
  /** Angle asked for less angle set, radians. */
  readonly error: number;
}

const TURN = 2 * Math.PI;

/** Below this an index counts as exact, radians (a hundredth of a second of arc). */
const EXACT = 5e-8;

/** Turns and holes on one index circle for an angle, radians, with `ratio` turns of the crank to one of the work. */
export const indexOn = (angle: number, ratio: number, circle: number): Indexing => {
  const total = Math.round((angle / TURN) * ratio * circle);
  const turns = Math.floor(total / circle);
  const holes = total - turns * circle;
  return { turns, holes, circle: holes === 0 ? null : circle, error: angle - (total / (ratio * circle)) * TURN };
};

/** The circle of the set that serves all the angles best: least greatest error, of equal ones the smallest circle. */
export const bestCircle = (angles: readonly number[], ratio: number, circles: readonly number[]): number | null => {
  const worst = (c: number): number => Math.max(0, ...angles.map((a) => Math.abs(indexOn(a, ratio, c).error)));
  const sorted = circles.toSorted((a, b) => a - b);
  return sorted.reduce<number | null>(
    (best, c) => (best === null || worst(c) < worst(best) - EXACT / 10 ? c : best),
    null,
  );
};

/** One hole by the dividing head. */
export interface DividedHole {
  readonly hole: string;
  /** From the centre, mm. */
  readonly radius: number;
  /** Anticlockwise from the first hole as seen from side B, radians in [0, 2π). */
  readonly angle: number;
  readonly index: Indexing;
  /** Place error that the index leaves, mm. */
  readonly error: number;
}

/** Every hole by the dividing head, about one centre; mm. */
export interface Dividing {
  readonly ratio: number;
  readonly circle: number;
  readonly about: string;
  readonly holes: readonly DividedHole[];
  /** Greatest place error, mm. */
  readonly worst: number;
}

/**
 * Round holes on a dividing head or rotary table set true to `centre`: each from its zero, the first hole, so that
 * errors never add up. Null with no index circles or no hole off the centre.
 */
export const dividing = (
  plate: Plate,
  head: { readonly ratio: number; readonly circles: readonly number[] },
  centre: Point,
  about: string,
): Dividing | null => {
  const around = plate.holes.filter((h) => h.slot === null && norm(subtract(h, centre)) > 1e-6);
  const [first] = around;
  if (first === undefined) return null;
  const zero = heading(subtract(first, centre));
  const angles = around.map((h) => fromZero(heading(subtract(h, centre)) - zero));
  const circle = bestCircle(angles, head.ratio, head.circles);
  if (circle === null) return null;
  const holes = around.map((h, i): DividedHole => {
    const angle = angles[i] ?? 0;
    const index = indexOn(angle, head.ratio, circle);
    const radius = norm(subtract(h, centre));
    return { hole: h.id, radius, angle, index, error: radius * Math.abs(index.error) };
  });
  return { ratio: head.ratio, circle, about, holes, worst: Math.max(...holes.map((h) => h.error)) };
};

/** Into [0, 2π), a hair below a whole turn taken for none. */
const fromZero = (a: number): number => {
  const t = ((a % TURN) + TURN) % TURN;
  return t > TURN - 1e-12 ? 0 : t;
};
