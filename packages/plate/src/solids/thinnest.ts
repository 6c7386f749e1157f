import {
  type Path,
  type Point,
  add,
  arcSweep,
  distance,
  edgesOf,
  midpoint,
  norm,
  scale,
  subtract,
} from '@fayplate/core';
import { type Cut, type Spine, cutRadius, nearestOnSpine, nearestSpots } from './cut.js';
import { radiusAt } from './gap.js';

// Where the metal is thinnest, for the mark of a check: never midway between centres, which lies in the larger of two
// unlike cuts.

/** The unit vector from one point to another; null where they lie in one place. */
const towards = (from: Point, to: Point): Point | null => {
  const d = distance(from, to);
  return d < 1e-9 ? null : scale(subtract(to, from), 1 / d);
};

/**
 * Both radii at the depth where two cuts come nearest, and that depth, mm; the middle where they run level. Null where
 * they share no depth.
 */
const nearestDepth = (a: Cut, b: Cut): { readonly ra: number; readonly rb: number; readonly z: number } | null => {
  let best: { readonly ra: number; readonly rb: number; readonly z: number } | null = null;
  for (const s of a.slices) {
    for (const t of b.slices) {
      const low = Math.max(s.z0, t.z0);
      const high = Math.min(s.z1, t.z1);
      if (high <= low) continue;
      const sum = (z: number): number => radiusAt(s, z) + radiusAt(t, z);
      const level = Math.abs(sum(low) - sum(high)) < 1e-9;
      const z = level ? (low + high) / 2 : sum(low) > sum(high) ? low : high;
      if (best === null || sum(z) > best.ra + best.rb + 1e-9) best = { ra: radiusAt(s, z), rb: radiusAt(t, z), z };
    }
  }
  return best;
};

/**
 * On the line between two round cuts: the middle of the metal that parts them, or of what they share where they
 * overlap.
 */
const onLine = (p: Point, ra: number, q: Point, rb: number): Point => {
  const u = towards(p, q);
  if (u === null) return midpoint(p, q);
  const d = distance(p, q);
  const [from, to] = [Math.max(-ra, d - rb), Math.min(ra, d + rb)];
  return add(p, scale(u, (from + to) / 2));
};

/**
 * The middle of the thinnest metal between two cuts, plate frame, mm; `z` its depth, null where the cuts share none.
 * Where they break into each other it is the middle of what both take away.
 */
export const thinnestBetween = (a: Cut, b: Cut): Point & { readonly z: number | null } => {
  const [p, q] = nearestSpots(a.spine, b.spine);
  const at = nearestDepth(a, b);
  return { ...onLine(p, at?.ra ?? cutRadius(a), q, at?.rb ?? cutRadius(b)), z: at?.z ?? null };
};

/**
 * The middle of the metal between a round thing that lies inside a larger circle and that circle, on the side where it
 * is thinnest.
 */
export const thinnestWithin = (spine: Spine, radius: number, circle: Point, outer: number): Point => {
  const far = spine.reduce((best, p) => (distance(p, circle) > distance(best, circle) ? p : best));
  const u = towards(circle, far) ?? { x: 1, y: 0 };
  return add(circle, scale(u, (distance(far, circle) + radius + outer) / 2));
};

/** The middle of the metal between a round thing and a raised circle beside it or about it. */
export const thinnestAtRim = (spine: Spine, radius: number, circle: Point, outer: number): Point => {
  const near = nearestOnSpine(circle, spine);
  return distance(near, circle) >= outer
    ? onLine(near, radius, circle, outer)
    : thinnestWithin(spine, radius, circle, outer);
};

/** The point of a closed path that lies nearest; exact for arcs. */
export const nearestOnPath = (p: Point, path: Path): Point => {
  let best = path.start;
  const offer = (q: Point): void => {
    if (distance(p, q) < distance(p, best)) best = q;
  };
  for (const [from, edge] of edgesOf(path)) {
    offer(edge.to);
    if (edge.kind === 'line') {
      offer(nearestOnSpine(p, [from, edge.to]));
      continue;
    }
    const out = subtract(from, edge.centre);
    const u = towards(edge.centre, p);
    if (u === null) continue;
    const turn = Math.atan2(out.x * u.y - out.y * u.x, out.x * u.x + out.y * u.y);
    const ahead = (((edge.ccw ? turn : -turn) % (2 * Math.PI)) + 2 * Math.PI) % (2 * Math.PI);
    if (ahead <= arcSweep(from, edge)) offer(add(edge.centre, scale(u, norm(out))));
  }
  return best;
};

/**
 * The middle of the metal between a cut and the edge of the plate where it is thinnest; where the cut runs out over the
 * edge, the place on the edge.
 */
export const thinnestToEdge = (spine: Spine, radius: number, path: Path): Point => {
  const spots = spine.map((p) => ({ p, q: nearestOnPath(p, path) }));
  const { p, q } = spots.reduce((best, s) => (distance(s.p, s.q) < distance(best.p, best.q) ? s : best));
  const u = towards(p, q);
  const d = distance(p, q);
  return u === null || d <= radius ? q : add(p, scale(u, (radius + d) / 2));
};
