import type { Point } from '@fayplate/core';
import { type Cut, type Slice, distanceToSpine, spineDistance } from './cut.js';

/** Radius of a slice at a depth within it, mm. */
export const radiusAt = (s: Slice, z: number): number => s.r0 + ((s.r1 - s.r0) * (z - s.z0)) / (s.z1 - s.z0);

/** Greatest sum of both radii at a depth that both cuts share; null where they share none. */
export const sharedReach = (a: Cut, b: Cut): number | null => {
  let most: number | null = null;
  for (const s of a.slices) {
    for (const t of b.slices) {
      const low = Math.max(s.z0, t.z0);
      const high = Math.min(s.z1, t.z1);
      // A sum of two straight changes is greatest at one of the ends.
      if (high > low)
        most = Math.max(most ?? 0, radiusAt(s, low) + radiusAt(t, low), radiusAt(s, high) + radiusAt(t, high));
    }
  }
  return most;
};

/**
 * Metal left between two cuts, level, at the depth where it is least, mm; negative by how far they break into each
 * other; null where they share no depth.
 */
export const webBetween = (a: Cut, b: Cut): number | null => {
  const reach = sharedReach(a, b);
  return reach === null ? null : spineDistance(a.spine, b.spine) - reach;
};

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
const sliceGap = (a: Slice, b: Slice, apart: number): number => {
  const p = section(a, 0);
  const q = section(b, apart);
  let least = Infinity;
  for (const s of sides(p)) for (const c of q) least = Math.min(least, distanceToSpine(c, s));
  for (const s of sides(q)) for (const c of p) least = Math.min(least, distanceToSpine(c, s));
  return least;
};

/**
 * Least metal between the ends of two cuts where they lie over each other or on a slant: slices that share no depth;
 * null where there are none.
 */
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
