import type { Face, Feature } from '@fayplate/job';
import type { LocatedFace, Pattern } from '@fayplate/survey';
import { informing, measuredPoints } from './measured.js';
import type { Candidate } from './types.js';
import type { Reporting } from './weigh/candidate.js';

const isFastener = (f: Feature): boolean => f.kind === 'hole' || f.kind === 'stud' || f.kind === 'dowel';
const isRound = (f: Feature): boolean => f.kind === 'bore' || f.kind === 'spigot';

/** The joint pattern of every located feature of a face, in the job's order. */
export const wholePattern = (face: Face, located: LocatedFace): Pattern => {
  const some = face.features.flatMap((f) => located.features.get(f.id) ?? []);
  const ids = some.map((f) => f.id);
  return {
    ids,
    points: some.map((f) => ({ x: f.x, y: f.y })),
    radii: some.map((f) => f.radius),
    covariance: ids.length === 0 ? [] : located.covarianceOf(ids),
  };
};

const byBench = ({ frame }: LocatedFace): boolean => 'direction' in frame && frame.direction === 'bench';

/** A face as its layout is judged: its centres, what they are, and the frame to answer in. */
export const reportingOf = (face: Face, located: LocatedFace): Reporting => {
  const whole = wholePattern(face, located);
  const features = face.features.filter((f) => located.features.has(f.id));
  const fasteners = features.filter((f) => isFastener(f) && !f.vacant && f.id !== face.centre);
  const centres = [
    ...features.filter((f) => f.id === face.centre),
    ...features.filter((f) => isRound(f) && f.id !== face.centre),
  ];
  const roles = {
    fasteners: fasteners.map((f) => f.id),
    centres: centres.map((f) => f.id),
    sorts: fasteners.map((f) => `${f.kind} ${f.thread ?? ''}`),
  };
  const measured = measuredPoints(whole, roles, 'exact');
  const kinds = new Map(face.features.map((f) => [f.id, f.kind]));
  return {
    free: measuredPoints(whole, roles, 'free'),
    measured,
    answering: {
      frame: located.frame,
      headed: features
        .filter((f) => f.id !== located.frame.origin && (f.clock !== null || byBench(located)))
        .map((f) => f.id),
      measured: whole.points,
    },
    radii: whole.radii,
    within: whole.ids.map((id) => located.features.get(id)?.ellipse95.major ?? 0),
    kindOf: (id) => kinds.get(id) ?? 'hole',
    inform: informing(measured),
  };
};

/** Odds that are asked of a layout before it is taken … */
export const SURE = 0.95;
/** … and the chance of a worse fit. */
const FITS = 0.01;

/** Index of the candidate that is sure enough to be taken, likeliest first; null where none is. */
export const chosenOf = ([first]: readonly Candidate[]): number | null =>
  first !== undefined && first.odds >= SURE && (first.p === null || first.p >= FITS) ? 0 : null;
