import type { Motion } from '@fayplate/core';
import { type Job, readJob } from '@fayplate/job';
import { type UsedPattern, layoutFace, usedPattern } from '@fayplate/layout';
import { locateFace } from '@fayplate/survey';
import { type MatedFace, type Plate, designPlate } from '../../src/index.js';

/** A job as it is typed, with its plate, both faces in the plate's frame and where each bench frame lies. */
interface FromText {
  readonly job: Job;
  readonly plate: Plate;
  readonly mated: readonly MatedFace[];
  readonly benches: ReadonlyMap<string, Motion>;
}

/** All that a plate is drawn from, from the readings on. Throws what stands in the way. */
export const designedFrom = (text: string): FromText => {
  const read = readJob(text);
  if (!read.ok) throw new Error(read.faults.map((f) => `${f.line}: ${f.expected}`).join('\n'));
  const { job } = read;
  const located = job.faces.map(
    (face) => [face, locateFace({ face, instruments: job.instruments }, { next: false })] as const,
  );
  const used = new Map(
    located.map(([face, l]) => {
      const u = usedPattern(face, l, layoutFace(face, l));
      if (!u.ok) throw new Error(u.why);
      return [face.name, u.used];
    }),
  );
  const benches = new Map(located.map(([face, l]) => [face.name, l.bench] as const));
  const designed = designPlate(job, used, { stack: null, trials: 50, benches });
  if (!designed.ok) throw new Error(designed.faults.join('\n'));
  const known = [...benches].flatMap(([face, bench]) => (bench === null ? [] : [[face, bench] as const]));
  return { job, plate: designed.plate, mated: designed.mated, benches: new Map(known) };
};

/** The plate of a job as it is typed. */
export const plateFrom = (text: string): Plate => designedFrom(text).plate;

/** The pattern in use of every face of a job. */
export const usedIn = (job: Job): ReadonlyMap<string, UsedPattern> =>
  new Map(
    job.faces.map((face) => {
      const located = locateFace({ face, instruments: job.instruments }, { next: false });
      const u = usedPattern(face, located, layoutFace(face, located));
      if (!u.ok) throw new Error(u.why);
      return [face.name, u.used];
    }),
  );
