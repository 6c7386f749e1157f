import { type Job, readJob } from '@fayplate/job';
import { type UsedPattern, layoutFace, usedPattern } from '@fayplate/layout';
import { locateFace } from '@fayplate/survey';
import { type Plate, designPlate } from '../../src/index.js';

/** The plate of a job as it is typed, from its readings on. Throws what stands in the way. */
export const plateFrom = (text: string): Plate => {
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
  return designed.plate;
};

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
