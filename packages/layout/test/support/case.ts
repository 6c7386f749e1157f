import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { type Face, readJob } from '@fayplate/job';
import { type LocatedFace, locateFace } from '@fayplate/survey';

/** A job of `test/cases`, its first face located. */
export const located = (file: string): { readonly face: Face; readonly located: LocatedFace } => {
  const read = readJob(readFileSync(join(import.meta.dirname, '../../../../test/cases', file), 'utf8'));
  if (!read.ok) throw new Error(JSON.stringify(read));
  const [face] = read.job.faces;
  if (face === undefined) throw new Error(`${file} has no face`);
  return { face, located: locateFace({ face, instruments: read.job.instruments }, { next: false }) };
};
