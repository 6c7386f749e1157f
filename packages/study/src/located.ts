import { shellWord } from '@fayplate/core';
import type { Face, Job } from '@fayplate/job';
import { type FittedReading, type LocatedFace, locateFace } from '@fayplate/survey';
import { Refusal } from './refusal.js';
import { clockWarnings } from './clocks.js';
import { asideOn } from './options.js';
import type { Progress } from './world.js';

export interface LocateChoices {
  readonly setAside?: readonly string[];
  readonly next?: boolean;
  /** Told of what is legal but unlikely. */
  readonly warn?: (words: string) => void;
  readonly progress?: Progress;
}

/** A ± finer than this share of what is read: nothing in a shop reads so, and double precision runs out soon after. */
const FINEST = 1e-8;
/** A misfit of so many standard uncertainties is no slip of a scale but a reading of something else. */
const ABSURD = 1000;

const mostBy = (readings: readonly FittedReading[], by: (r: FittedReading) => number): FittedReading | undefined =>
  readings.reduce<FittedReading | undefined>(
    (most, r) => (most === undefined || by(r) > by(most) ? r : most),
    undefined,
  );

/** Why no shape came out, by what the file says: an absurd ±, a reading of something else, or none that can be named. */
const unsettled = (face: Face, { readings, stopped }: LocatedFace): Refusal => {
  const finest = mostBy(readings, (r) => Math.abs(r.value) / r.sigma);
  if (finest !== undefined && finest.sigma < FINEST * Math.abs(finest.value)) {
    return new Refusal(
      `face ${face.name}: no shape can be settled on. The ± of reading ${finest.id}, \`${finest.text}\`, is less than a hundred-millionth of what is read, ` +
        'which no instrument can read: state the ± that yours has.',
    );
  }
  const worst = mostBy(readings, (r) => Math.abs(r.residual) / r.sigma);
  if (worst !== undefined && Math.abs(worst.residual) > ABSURD * worst.sigma) {
    return new Refusal(
      `face ${face.name}: no shape can be settled on, so far do its readings contradict each other. The farthest out is reading ${worst.id}, \`${worst.text}\`: ` +
        `look at the part and at what is typed, or leave it out with --set-aside ${shellWord(`${face.name}:${worst.id}`)}.`,
    );
  }
  const far = worst === undefined ? '' : ` The farthest out is reading ${worst.id}, \`${worst.text}\`.`;
  return new Refusal(
    `face ${face.name}: its readings settle on no shape (${stopped.why}).${far} Look at the part and at what is typed; a clock at every feature, or one more reading between two that are far apart, helps most.`,
  );
};

/** One face of a job, located. Throws a refusal in words where no shape can be settled on. */
export const locatedIn = (
  job: Job,
  face: Face,
  { setAside, next = false, warn, progress }: LocateChoices,
): LocatedFace => {
  const located = locateFace(
    { face, instruments: job.instruments },
    { setAside: asideOn(face.name, setAside), next, ...(progress === undefined ? {} : { progress }) },
  );
  if (!located.stopped.converged) throw unsettled(face, located);
  if (warn !== undefined) for (const words of clockWarnings(face, located)) warn(words);
  return located;
};
