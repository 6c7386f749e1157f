import { type Spine, signedToSpine, spineArea, spineGirth } from './spine.js';

/** A slice of a round cut between two depths, radius changing evenly from `r0` at `z0` to `r1` at `z1` > `z0`; mm. */
export interface Slice {
  readonly z0: number;
  readonly z1: number;
  readonly r0: number;
  readonly r1: number;
}

/**
 * Metal that is taken away, as a solid: slices one above the other about one upright axis. A slot is the same swept
 * along its spine, a pocket with straight sides over the area of its own; a round cut's spine has both ends in one place.
 * Slices do not overlap.
 */
export interface Cut {
  readonly id: string;
  readonly what: 'hole' | 'bore' | 'recess' | 'relief';
  readonly spine: Spine;
  readonly slices: readonly Slice[];
  /** It runs out over the edge by design; left out: it does not. */
  readonly notch?: true;
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

/** Frustum, and over a slot's length or a pocket's area the prism beside it; mm³. */
export const cutVolume = ({ spine, slices }: Cut): number => {
  const area = spineArea(spine);
  const girth = spineGirth(spine);
  return slices.reduce((sum, { z0, z1, r0, r1 }) => {
    const h = z1 - z0;
    return sum + (Math.PI * h * (r0 * r0 + r0 * r1 + r1 * r1)) / 3 + (girth * (r0 + r1) * h) / 2 + area * h;
  }, 0);
};

/** Whether from above the whole of one cut lies within another: two round ones about one axis lie within each other where they are as wide. */
export const liesWithin = (inner: Cut, outer: Cut): boolean => {
  const room = cutRadius(outer) - cutRadius(inner);
  const least = room < 0 || outer.spine.length > 2 ? room + 1e-9 : Math.max(1e-6, room);
  return Math.max(...inner.spine.map((p) => signedToSpine(p, outer.spine))) <= least;
};
