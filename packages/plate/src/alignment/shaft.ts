import { covarianceOfPoints } from '@fayplate/core';
import type { Face, LocateSpec } from '@fayplate/job';
import { leansOf } from './lean.js';
import type { Joint, LocatedShaft, MatedFace } from '../types.js';

const ways: Readonly<Record<LocateSpec['as'], LocatedShaft['by']>> = {
  register: 'register',
  'own dowels': 'dowels',
  'new dowels': 'set at assembly',
};

/** Rows and columns of a pattern's covariance for these features, in their order; a feature that the pattern has not is exact. */
const covarianceFor = (mated: MatedFace, ids: readonly string[]): readonly (readonly number[])[] => {
  return covarianceOfPoints(
    mated.pattern.covariance,
    ids.map((id) => mated.pattern.ids.indexOf(id)),
  );
};

/** The same with the shaft's own two rows, which stand last, as they are known of a circle's centre. */
const withAxis = (
  covariance: readonly (readonly number[])[],
  axis: readonly (readonly number[])[] | undefined,
): readonly (readonly number[])[] => {
  const n = covariance.length - 2;
  return axis === undefined
    ? covariance
    : covariance.map((row, i) => row.map((v, j) => (i >= n && j >= n ? (axis[i - n]?.[j - n] ?? 0) : v)));
};

/** One part's shaft on the plate: the face's `shaft`, else its centre, with what locates the part and what fastens it. */
export const locatedShaft = (
  face: Face,
  mated: MatedFace,
  joints: readonly Joint[],
  locate: LocateSpec | undefined,
): LocatedShaft => {
  const feature = mated.axis?.feature ?? null;
  const leans = leansOf(face, mated);
  return {
    face: face.name,
    shaft: mated.axis?.at ?? mated.centre,
    feature,
    by: locate === undefined ? 'fasteners' : ways[locate.as],
    ...(leans.length === 0 ? {} : { leans }),
    ranOut: face.readings.some((r) => r.runOut?.radius === null && !r.aside && r.features[1] === feature),
    joints,
    covariance: withAxis(covarianceFor(mated, [...joints.map((j) => j.id), feature ?? '']), mated.axis?.covariance),
  };
};
