import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { readJob } from '../src/index.js';
import { misread } from './misread.js';
import { slipped } from './slip.js';
import { jobOf, shop } from './support.js';

const text = (name: string): string => readFileSync(join(import.meta.dirname, name), 'utf8');
const texts = [
  text('contract.yaml'),
  text('cases/loc13-every-kind.yaml'),
  shop(['over A B = 3 17/32 ± 1/64 by rule', `dia A = 5/16" ± 2 thou`, 'between B C = 61.2 ± 0.2 mm'], 'in'),
];

test('what a slip leaves readable is read as a second reader has it; the bench takes 20,000', () => {
  let read = 0;
  fc.assert(
    fc.property(slipped(texts), (t) => {
      const answer = readJob(t);
      if (!answer.ok) return;
      read++;
      expect(misread(t, answer.job)).toEqual([]);
    }),
    { seed: 71, numRuns: 800 },
  );
  expect(read).toBeGreaterThan(50);
});

test('a number read wrongly is found out', () => {
  const line = 'over A B = 40 ± 0.5 by rule';
  const job = jobOf(shop([line]));
  const face = job.faces[0];
  if (face === undefined) throw new Error('no face');
  const readings = face.readings.map((r) => ({ ...r, value: 40.1 }));
  expect(misread(shop([line]), job)).toEqual([]);
  expect(misread(shop([line]), { ...job, faces: [{ ...face, readings }] })).toHaveLength(1);
});
