import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { readJob } from '../src/index.js';
import { misread } from './misread.js';
import { misreadMore } from './misread-more.js';
import { slipped } from './slip.js';
import { jobOf, shop } from './support.js';

const text = (name: string): string => readFileSync(join(import.meta.dirname, name), 'utf8');
const texts = [
  text('contract.yaml'),
  text('../../../test/cases/loc13-every-kind.yaml'),
  shop(['over A B = 3 17/32 ± 1/64 by rule', `dia A = 5/16" ± 2 thou`, 'between B C = 61.2 ± 0.2 mm'], 'in'),
];

test('what a slip leaves readable is read as a second reader has it; the bench takes 20,000', () => {
  let read = 0;
  fc.assert(
    fc.property(slipped(texts), (t) => {
      const answer = readJob(t);
      if (!answer.ok) return;
      read++;
      expect([...misread(t, answer.job), ...misreadMore(t, answer.job)]).toEqual([]);
    }),
    { seed: 71, numRuns: 800 },
  );
  expect(read).toBeGreaterThan(50);
});

test('an angle, a place, a count or a name read wrongly is found out', () => {
  const whole = text('contract.yaml');
  const job = jobOf(whole);
  expect(misreadMore(whole, job)).toEqual([]);
  const [pump, motor] = job.faces;
  if (pump === undefined || motor === undefined || job.plate === null) throw new Error('no faces');
  const wrong: readonly (readonly [string, typeof job])[] = [
    ['clock', { ...job, faces: [{ ...pump, features: pump.features.map((f) => ({ ...f, clock: 0.3 })) }, motor] }],
    [
      'kind',
      { ...job, faces: [{ ...pump, features: pump.features.map((f) => ({ ...f, kind: 'hole' as const })) }, motor] },
    ],
    ['up', { ...job, faces: [{ ...pump, up: 'P3' }, motor] }],
    [
      '(1, -2)',
      {
        ...job,
        faces: [{ ...pump, readings: pump.readings.map((r) => ({ ...r, point: r.point && { x: 2, y: 1 } })) }, motor],
      },
    ],
    ['tilt', { ...job, plate: { ...job.plate, alignment: { offset: 0.1, tilt: 0.1 } } }],
    ['top speed', { ...job, machine: job.machine && { ...job.machine, topSpeed: 2501 } }],
  ];
  for (const [what, slipped] of wrong) expect(misreadMore(whole, slipped).join('\n')).toContain(what);
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
