import type { Adjustment } from '../adjust/adjustment.js';
import type { LocatedFeature } from '../types.js';
import { centreCovariances } from './covariance.js';
import type { Datum } from './datum.js';
import { ellipse95 } from './ellipse.js';
import type { Placed } from './placed.js';
import { sizeOf } from './sizes.js';

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
