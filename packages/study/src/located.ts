import { type Point, formatClock, sayAll, wrapAngle } from '@fayplate/core';
import type { Face, Job } from '@fayplate/job';
import {
  type FittedReading,
  type LocatedFace,
  type Rival,
  locateFace,
  restsOnWords,
  stoppedWords,
} from '@fayplate/survey';
import { asideFlag, asideOn } from './options.js';
import { Refusal, Unsettled } from './refusal.js';
import type { LocateChoices } from './types.js';

/** The faces that the plate joins, in its order. */
export const platedFaces = (job: Job): readonly Face[] =>
  (job.plate?.between ?? []).flatMap((name) => job.faces.filter((f) => f.name === name));

/** A clock is only roughly read; farther off than two hours it is another place. */
const FAR = Math.PI / 3;
/** Fewer say nothing of each other. */
const FEW = 3;
const HALF_HOUR = Math.PI / 12;

const middleOf = (face: Face, located: LocatedFace): Point => {
  const centre = face.centre === null ? undefined : located.features.get(face.centre);
  if (centre !== undefined) return centre;
  const all = [...located.features.values()];
  return {
    x: all.reduce((s, p) => s + p.x, 0) / Math.max(all.length, 1),
    y: all.reduce((s, p) => s + p.y, 0) / Math.max(all.length, 1),
  };
};

/**
 * Clocks that the located centres contradict: a slip of the hour, or readings that belong to another feature. Where 12
 * lies is what most clocks agree on, so that one wrong clock does not turn the others.
 */
export const clockWarnings = (face: Face, located: LocatedFace): readonly string[] => {
  const middle = middleOf(face, located);
  const read = face.features.flatMap((f) => {
    const at = located.features.get(f.id);
    if (f.clock === null || at === undefined || f.id === face.centre) return [];
    return [{ id: f.id, clock: f.clock, off: Math.atan2(at.y - middle.y, at.x - middle.x) - f.clock }];
  });
  if (read.length < FEW) return [];
  const { rivals } = located.arrangements;
  // The hour is not to blame where another arrangement that the readings fit has the feature there.
  const suits = ({ places }: Rival, id: string, heading: number): boolean => {
    const [at, about] = [places.get(id), places.get(face.centre ?? '') ?? middle];
    return at !== undefined && Math.abs(wrapAngle(Math.atan2(at.y - about.y, at.x - about.x) - heading)) <= FAR;
  };
  const strife = (turn: number): number => read.reduce((sum, r) => sum + Math.abs(wrapAngle(r.off - turn)), 0);
  const turn = read.map((r) => r.off).reduce((best, t) => (strife(t) < strife(best) ? t : best));
  return read.flatMap(({ id, clock, off }) => {
    const far = wrapAngle(off - turn);
    if (Math.abs(far) <= FAR || rivals.some((r) => suits(r, id, clock + turn))) return [];
    const comes = formatClock(Math.round((clock + far) / HALF_HOUR) * HALF_HOUR);
    return [
      `on ${face.name}, ${id} is written at ${formatClock(clock)} o'clock, but its readings put it near ${comes}. ` +
        'Is the hour a slip, or were the readings taken off another feature?',
    ];
  });
};

/** A ± finer than this share of what is read: nothing in a shop reads so, and double precision runs out soon after. */
const FINEST = 1e-8;
/** Readings named where no shape comes out, those that fit worst. */
const FIGHTING = 3;

const mostBy = (readings: readonly FittedReading[], by: (r: FittedReading) => number): FittedReading | undefined =>
  readings.reduce<FittedReading | undefined>(
    (most, r) => (most === undefined || by(r) > by(most) ? r : most),
    undefined,
  );

/** Why no shape came out: a ± that no instrument has, or readings that fight. */
const unsettled = (face: Face, { readings, stopped, arrangements }: LocatedFace): Refusal => {
  const finest = mostBy(readings, (r) => Math.abs(r.value) / r.sigma);
  if (finest !== undefined && finest.sigma < FINEST * Math.abs(finest.value)) {
    return new Refusal(
      `face ${face.name}: no shape can be found. The ± of reading ${finest.id}, \`${finest.text}\`, is less than a ` +
        'hundred-millionth of the reading, ' +
        'which no instrument can reach: state the ± of yours.',
    );
  }
  const fighting = readings
    .toSorted((a, b) => Math.abs(b.residual) / b.sigma - Math.abs(a.residual) / a.sigma)
    .slice(0, FIGHTING);
  const [worst] = fighting;
  const named = sayAll(fighting.map((r) => `${r.id} (${r.text})`));
  const leave = worst === undefined ? '' : `, or leave one out with ${asideFlag(face, worst.id)}`;
  const what = arrangements.searched
    ? 'these readings cannot belong to one face'
    : 'no shape that these readings fit was found in the steps allowed';
  return new Unsettled(
    `face ${face.name}: ${what}: ${stoppedWords(stopped.why)}. The worst contradictions: ${named}. ` +
      `Look at the part and at what is typed${leave}. A clock at every feature, or one more reading between two ` +
      'that are far apart, helps most.',
  );
};

/** One face of a job, located. Throws a refusal in words where no shape can be settled on. */
export const locatedIn = (
  job: Job,
  stated: Face,
  { setAside, next = false, warn, progress }: LocateChoices,
): LocatedFace => {
  // Readings were taken before anything was done to the part.
  const face = job.asMeasured?.find((f) => f.name === stated.name) ?? stated;
  const located = locateFace(
    { face, instruments: job.instruments },
    { setAside: asideOn(face.name, setAside), next, ...(progress === undefined ? {} : { progress }) },
  );
  if (!located.stopped.converged) throw unsettled(face, located);
  if (warn !== undefined) for (const words of clockWarnings(face, located)) warn(words);
  const leftOut = asideOn(face.name, setAside).filter((id) => located.aside.some((a) => a.id === id));
  if (warn !== undefined && leftOut.length > 0) {
    const words = restsOnWords(locateFace({ face, instruments: job.instruments }, { next: false }), leftOut);
    if (words !== null) warn(`on ${face.name}, ${words}`);
  }
  return located;
};

/** The faces of a job that are located already, for a study that goes on from them. */
export const alreadyLocated = (
  faces: readonly { readonly face: Face; readonly located: LocatedFace }[],
): ((face: Face) => LocatedFace) => {
  const known = new Map(faces.map((f) => [f.face, f.located]));
  return (face) => {
    const found = known.get(face);
    if (found === undefined) throw new RangeError(`face ${face.name} is not among those located`);
    return found;
  };
};
