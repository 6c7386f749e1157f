import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { type Job, readJob } from '@fayplate/job';
import type { UsedPattern } from '@fayplate/layout';
import { locateFace, patternOf } from '@fayplate/survey';

/** A job's text, read; throws with every fault. */
export const jobFrom = (text: string): Job => {
  const read = readJob(text);
  if (!read.ok) throw new Error(read.faults.map((f) => `${f.line}:${f.column} ${f.found}: ${f.expected}`).join('\n'));
  return read.job;
};

export const caseText = (name: string): string =>
  readFileSync(join(import.meta.dirname, '../../../../test/cases', `${name}.yaml`), 'utf8');

/** Both faces as measured. */
export const measured = (job: Job): ReadonlyMap<string, UsedPattern> =>
  new Map(
    job.faces.map((face) => {
      const located = locateFace({ face, instruments: job.instruments });
      return [face.name, { source: 'measured', pattern: patternOf(located, [...located.features.keys()]) }];
    }),
  );
