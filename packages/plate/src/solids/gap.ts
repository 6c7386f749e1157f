import type { Point } from '@fayplate/core';
import type { Cut, Slice } from './cut.js';
import { distanceToSpine, spineDistance } from './spine.js';

/** The slice's four corners in the plane through both axes, x from its own axis plus `shift`, y up the depth. */
const section = (s: Slice, shift: number): readonly Point[] => [
  { x: shift - s.r0, y: s.z0 },
  { x: shift + s.r0, y: s.z0 },
  { x: shift + s.r1, y: s.z1 },
  { x: shift - s.r1, y: s.z1 },
];

const sides = (corners: readonly Point[]): readonly (readonly [Point, Point])[] =>
  corners.map((p, i) => [p, corners[(i + 1) % corners.length] ?? p] as const);

/**
 * Straight-line distance between two slices that share no depth, their spines `apart` mm from each other. Both are
 * convex and symmetric about the plane through their axes, so the nearest points lie in it (a slot is a slice swept
 * level, which changes only how far apart the spines are).
 */
export const sliceGap = (a: Slice, b: Slice, apart: number): number => {
  const p = section(a, 0);
  const q = section(b, apart);
  let least = Infinity;
  for (const s of sides(p)) for (const c of q) least = Math.min(least, distanceToSpine(c, s));
  for (const s of sides(q)) for (const c of p) least = Math.min(least, distanceToSpine(c, s));
  return least;
};

/** Least metal between the ends of two cuts where they lie over each other or on a slant: slices that share no depth; null where there are none. */
export const endGap = (a: Cut, b: Cut, apart: number = spineDistance(a.spine, b.spine)): number | null => {
  let least: number | null = null;
  for (const s of a.slices) {
    for (const t of b.slices) {
      if (Math.min(s.z1, t.z1) > Math.max(s.z0, t.z0)) continue;
      least = Math.min(least ?? Infinity, sliceGap(s, t, apart));
    }
  }
  return least;
};
