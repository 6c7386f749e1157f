import type { LocatedFace, LocatedFeature, Pattern } from './types.js';

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
