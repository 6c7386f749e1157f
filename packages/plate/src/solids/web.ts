import type { Cut, Slice } from './cut.js';
import { spineDistance } from './spine.js';

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

/** Metal left between two cuts, level, at the depth where it is least, mm; negative by how far they break into each other; null where they share no depth. */
export const webBetween = (a: Cut, b: Cut): number | null => {
  const reach = sharedReach(a, b);
  return reach === null ? null : spineDistance(a.spine, b.spine) - reach;
};
