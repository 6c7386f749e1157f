import { type Point, cross, distance, dot, subtract } from '@fayplate/core';

/** A point, as both ends in one place, or a straight run. */
export type Spine = readonly [Point, Point];

/** The place on a spine that lies nearest to a point. */
export const nearestOnSpine = (p: Point, [a, b]: Spine): Point => {
  const along = subtract(b, a);
  const length2 = dot(along, along);
  const t = length2 === 0 ? 0 : Math.min(1, Math.max(0, dot(subtract(p, a), along) / length2));
  return { x: a.x + t * along.x, y: a.y + t * along.y };
};

export const distanceToSpine = (p: Point, spine: Spine): number => distance(p, nearestOnSpine(p, spine));

const cross01 = ([a, b]: Spine, [c, d]: Spine): boolean => {
  const side = (p: Point, q: Point, r: Point): number => cross(subtract(q, p), subtract(r, p));
  return side(a, b, c) * side(a, b, d) < 0 && side(c, d, a) * side(c, d, b) < 0;
};

/** Least distance between two spines, each a point or a straight run. */
export const spineDistance = (a: Spine, b: Spine): number =>
  cross01(a, b)
    ? 0
    : Math.min(distanceToSpine(a[0], b), distanceToSpine(a[1], b), distanceToSpine(b[0], a), distanceToSpine(b[1], a));

/** Where two spines come nearest, a place on each; where they cross, the crossing twice. */
export const nearestSpots = (a: Spine, b: Spine): readonly [Point, Point] => {
  if (cross01(a, b)) {
    const [u, v] = [subtract(a[1], a[0]), subtract(b[1], b[0])];
    const t = cross(subtract(b[0], a[0]), v) / cross(u, v);
    const at = { x: a[0].x + t * u.x, y: a[0].y + t * u.y };
    return [at, at];
  }
  const pairs: readonly (readonly [Point, Point])[] = [
    [a[0], nearestOnSpine(a[0], b)],
    [a[1], nearestOnSpine(a[1], b)],
    [nearestOnSpine(b[0], a), b[0]],
    [nearestOnSpine(b[1], a), b[1]],
  ];
  return pairs.reduce((best, p) => (distance(...p) < distance(...best) - 1e-12 ? p : best));
};

/** A slice of a round cut between two depths, radius changing evenly from `r0` at `z0` to `r1` at `z1` > `z0`; mm. */
export interface Slice {
  readonly z0: number;
  readonly z1: number;
  readonly r0: number;
  readonly r1: number;
}

/**
 * Metal that is taken away, as a solid: slices one above the other about one upright axis. A slot is the same swept
 * along its spine; a round cut's spine has both ends in one place. Slices do not overlap.
 */
export interface Cut {
  readonly id: string;
  readonly what: 'hole' | 'bore' | 'recess' | 'relief';
  readonly spine: readonly [Point, Point];
  readonly slices: readonly Slice[];
  /** Turns with the second face. */
  readonly turns: boolean;
  /** Nominal diameter of its fastener, mm; null where it has none. */
  readonly nominal: number | null;
}

export const cutRadius = (cut: Cut): number => Math.max(...cut.slices.flatMap((s) => [s.r0, s.r1]));

/** Radius of the cut where it comes out on the level `z`; 0 where it does not. */
export const mouthRadius = (cut: Cut, z: number): number =>
  cut.slices.reduce(
    (r, s) => Math.max(r, Math.abs(s.z0 - z) < 1e-9 ? s.r0 : 0, Math.abs(s.z1 - z) < 1e-9 ? s.r1 : 0),
    0,
  );

/** Frustum, and for a slot the prism between its ends; mm³. */
export const cutVolume = (cut: Cut): number => {
  const [a, b] = cut.spine;
  const length = Math.hypot(b.x - a.x, b.y - a.y);
  return cut.slices.reduce((sum, { z0, z1, r0, r1 }) => {
    const h = z1 - z0;
    return sum + (Math.PI * h * (r0 * r0 + r0 * r1 + r1 * r1)) / 3 + length * (r0 + r1) * h;
  }, 0);
};
