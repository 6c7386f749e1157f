import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { readJob } from '../src/index.js';
import { mutated } from './mutate.js';
import { wrongs } from './sound.js';

const texts = [
  '../../../test/cases/lay07-five-equal',
  '../../../test/cases/loc06-touched-rims',
  '../../../test/cases/plt02-turned',
  '../../../test/cases/stk02-inches',
  'contract',
].map((name) => readFileSync(join(import.meta.dirname, `${name}.yaml`), 'utf8'));

/** Four times 500, so that none waits long on a busy machine. */
test.each([1, 2, 3, 4])(
  '2,000 changed files each give a job or faults that can be shown, and never throw: part %d',
  (part) => {
    let read = 0;
    fc.assert(
      fc.property(mutated(texts), (text) => {
        const answer = readJob(text);
        expect(wrongs(text, answer)).toEqual([]);
        if (answer.ok) read++;
      }),
      { numRuns: 500, seed: 20_260_100 + part },
    );
    // The changes are neither all harmless nor all fatal, or the test would say little.
    expect(read).toBeGreaterThan(10);
    expect(read).toBeLessThan(400);
  },
);

test('any text at all', () => {
  fc.assert(
    fc.property(fc.string({ unit: 'binary', maxLength: 300 }), (text) => {
      expect(wrongs(text, readJob(text))).toEqual([]);
    }),
    { numRuns: 500, seed: 7 },
  );
});

test('changed lists beside the job', () => {
  const list =
    `kind,features,value,plus_minus,instrument,note\nover,A B,41,,rule,"by, ""lamplight"""\ntouch,A,"(1, ` +
    `2)",0.1,,\nsquare,A-B C-A,,0.3 deg,,\n`;
  const job =
    'job: x\nunits: mm\ninstruments: { rule: 0.5 }\nfaces: { f: { features: { A: { kind: hole, diameter: 8 }, B: { ' +
    'kind: hole, diameter: 8 }, C: { kind: hole } }, readings: a.csv } }\n';
  expect(readJob(job, { csv: () => list }).ok).toBe(true);
  fc.assert(
    fc.property(mutated([list]), (csv) => {
      expect(wrongs(job, readJob(job, { csv: () => csv }))).toEqual([]);
    }),
    { numRuns: 500, seed: 11 },
  );
});

test('a bad answer is found out', () => {
  const fault = {
    code: 'value' as const,
    line: 1,
    column: 1,
    found: 'x',
    expected: 'y',
    nearest: null,
    path: '',
    file: null,
  };
  const of = (change: Partial<typeof fault>) =>
    wrongs('job: x', { ok: false, faults: [{ ...fault, ...change }] }).length;
  expect(
    [
      of({}),
      of({ line: 2 }),
      of({ column: 8 }),
      of({ column: 0 }),
      of({ expected: '' }),
      of({ found: '\u001b[31m' }),
    ].map((n) => n > 0),
  ).toEqual([false, true, true, true, true, true]);
  expect(wrongs('job: x', { ok: false, faults: [] })).toEqual(['refused without a fault']);
});
