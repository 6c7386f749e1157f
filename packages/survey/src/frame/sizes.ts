import { oncePer } from '@fayplate/core';
import type { Adjustment } from '../adjust/adjustment.js';
import { type FeatureSlots, radiusAt } from '../network/unknowns.js';

/** The largest entry of a vector, without sign. */
const largest = oncePer(
  (v: Float64Array): number => v.reduce((most, e) => Math.max(most, Math.abs(e)), 0),
  new WeakMap<Float64Array, number>(),
);

/** A feature's radius and its standard uncertainty, mm: nulls where the readings do not fix it, 0 for an exact one. */
export const sizeOf = (
  adjustment: Adjustment,
  slots: FeatureSlots,
): { readonly radius: number | null; readonly sigma: number | null } => {
  const radius = radiusAt(slots, adjustment.values);
  const slot = slots.radius;
  if (radius === null) return { radius: null, sigma: null };
  if (slot === null) return { radius, sigma: 0 };
  const free = adjustment.nullSpace.some((v) => Math.abs(v[slot] as number) > 1e-6 * largest(v));
  return free
    ? { radius: null, sigma: null }
    : { radius, sigma: Math.sqrt(Math.max(adjustment.cofactor(slot, slot), 0)) };
};
