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
