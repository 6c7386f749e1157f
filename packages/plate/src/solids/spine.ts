import { type Point, cross, distance, dot, subtract } from '@fayplate/core';

type Spine = readonly [Point, Point];

export const distanceToSpine = (p: Point, [a, b]: Spine): number => {
  const along = subtract(b, a);
  const length2 = dot(along, along);
  const t = length2 === 0 ? 0 : Math.min(1, Math.max(0, dot(subtract(p, a), along) / length2));
  return distance(p, { x: a.x + t * along.x, y: a.y + t * along.y });
};

const cross01 = ([a, b]: Spine, [c, d]: Spine): boolean => {
  const side = (p: Point, q: Point, r: Point): number => cross(subtract(q, p), subtract(r, p));
  return side(a, b, c) * side(a, b, d) < 0 && side(c, d, a) * side(c, d, b) < 0;
};

/** Least distance between two spines, each a point or a straight run. */
export const spineDistance = (a: Spine, b: Spine): number =>
  cross01(a, b)
    ? 0
    : Math.min(distanceToSpine(a[0], b), distanceToSpine(a[1], b), distanceToSpine(b[0], a), distanceToSpine(b[1], a));
