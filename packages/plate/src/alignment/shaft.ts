import type { LocateSpec } from '@fayplate/job';
import { type Meeting, covarianceFor, meeting } from '../assembly/meet.js';
import type { LocatedShaft } from '../types.js';

const ways: Readonly<Record<LocateSpec['as'], LocatedShaft['by']>> = { register: 'register', 'own dowels': 'dowels', 'new dowels': 'set at assembly' };

/** One part's shaft on the plate: the face's `shaft`, else its centre, and whatever locates the part. */
export const locatedShaft = (m: Meeting, locate: LocateSpec | undefined): LocatedShaft => {
  const { joints } = meeting(m);
  const feature = m.face.shaft ?? m.face.centre;
  const at = feature === null ? undefined : m.mated.pattern.points[m.mated.pattern.ids.indexOf(feature)];
  return {
    face: m.face.name,
    shaft: at ?? m.mated.centre,
    feature: feature ?? 'the middle of its pattern',
    by: locate === undefined ? 'fasteners' : ways[locate.as],
    joints,
    covariance: covarianceFor(m.mated, [...joints.map((j) => j.id), feature ?? '']),
  };
};
