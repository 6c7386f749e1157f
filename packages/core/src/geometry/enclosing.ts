import { type Circle, circumcircle } from './circle.js';
import { type Point, distance, midpoint } from './point.js';

const holds = (c: Circle, p: Point): boolean => distance(c.centre, p) <= c.radius * (1 + 1e-12) + 1e-12;
const across = (a: Point, b: Point): Circle => ({ centre: midpoint(a, b), radius: distance(a, b) / 2 });

/**
 * The smallest circle that holds every point (Sylvester 1857; incremental form after Welzl 1991).
 * The points are taken in the order given, so the same list gives the same bytes. Null for no points.
 */
export const smallestCircle = (points: readonly Point[]): Circle | null => {
  const [first] = points;
  if (first === undefined) return null;
  let c: Circle = { centre: first, radius: 0 };
  for (const [i, p] of points.entries()) {
    if (holds(c, p)) continue;
    c = { centre: p, radius: 0 };
    for (const [j, q] of points.slice(0, i).entries()) {
      if (holds(c, q)) continue;
      c = across(p, q);
      for (const r of points.slice(0, j)) {
        if (!holds(c, r)) c = circumcircle(p, q, r) ?? c;
      }
    }
  }
  return c;
};
