import { largerEigenvalue, oncePer } from '@fayplate/core';
import type { Adjustment } from '../adjust/adjustment.js';
import { type FeatureSlots, radiusAt } from '../network/unknowns.js';
import type { Ellipse, LocatedFace, LocatedFeature, Matrix2, Pattern } from '../types.js';
import { centreCovariances } from './covariance.js';
import type { Datum } from './datum.js';
import type { Placed } from './placed.js';

/**
 * √χ²(0.95; 2): semi-axes of the ellipse that holds 95 in 100, in standard deviations. −2 ln 0.05 is that quantile
 * exactly.
 */
export const FACTOR95 = Math.sqrt(-2 * Math.log(0.05));

/** The 95 % ellipse of a centre. */
export const ellipse95 = ([[xx, xy], [, yy]]: Matrix2): Ellipse => {
  const angle = xy === 0 && xx === yy ? 0 : Math.atan2(2 * xy, xx - yy) / 2;
  const most = largerEigenvalue(xx, xy, yy);
  // The product of the two is the determinant: kinder to the lesser one than a difference.
  const least = most === 0 ? 0 : Math.max((xx * yy - xy * xy) / most, 0);
  return {
    major: FACTOR95 * Math.sqrt(most),
    minor: FACTOR95 * Math.sqrt(least),
    angle: angle < 0 ? angle + Math.PI : angle,
  };
};

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

/** Each placed feature with its covariance in the face's frame, its 95 % ellipse and its radius. */
export const locatedFeatures = (
  adjustment: Adjustment,
  datum: Datum,
  placed: readonly Placed[],
): ReadonlyMap<string, LocatedFeature> => {
  const covarianceAt = centreCovariances(adjustment, datum);
  return new Map(
    placed.map((p) => {
      const covariance = covarianceAt(p);
      const { radius, sigma } = sizeOf(adjustment, p.slots);
      return [
        p.slots.id,
        { id: p.slots.id, ...p.point, radius, radiusSigma: sigma, covariance, ellipse95: ellipse95(covariance) },
      ];
    }),
  );
};

/** Several located centres with their joint covariance. Throws RangeError for one that is not located. */
export const patternOf = (located: LocatedFace, ids: readonly string[]): Pattern => {
  const features = ids.map((id): LocatedFeature => {
    const f = located.features.get(id);
    if (f === undefined) throw new RangeError(`patternOf: ${id} is not located on face ${located.name}`);
    return f;
  });
  return {
    ids,
    points: features.map(({ x, y }) => ({ x, y })),
    radii: features.map((f) => f.radius),
    covariance: located.covarianceOf(ids),
  };
};
