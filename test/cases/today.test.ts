import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { readJob } from '@fayplate/job';
import { locateFace } from '@fayplate/survey';
import { expect, test } from 'vitest';

/**
 * Every example and every public case, as it was read and located when the language had only its first words: the
 * language may grow, and none of this may change. `UPDATE_TODAY=1` writes it anew; that is right only for a job that is
 * new here.
 */
const root = join(import.meta.dirname, '..', '..');
const kept = join(import.meta.dirname, 'today.json');

const files = [
  ...readdirSync(join(root, 'examples'), { withFileTypes: true }).flatMap((d) =>
    d.isDirectory() ? [`examples/${d.name}/job.yaml`] : [],
  ),
  ...readdirSync(import.meta.dirname).flatMap((f) => (f.endsWith('.yaml') ? [`test/cases/${f}`] : [])),
];

/** mm to 1e-6, so that another machine's rounding is none. */
const micro = (n: number): string => (Math.round(n * 1e6) / 1e6 + 0).toFixed(6);
const nine = (n: number): number => Math.round(n * 1e9) / 1e9 + 0;

const told = (file: string): unknown => {
  const read = readJob(readFileSync(join(root, file), 'utf8'));
  if (!read.ok) throw new Error(`${file}: ${read.faults[0]?.expected ?? ''}`);
  const { job } = read;
  return job.faces.map((face) => ({
    face: face.name,
    readings: face.readings.map(
      (r) => `${r.id} ${r.kind} ${r.features.join(' ')} ${nine(r.value)} ± ${nine(r.plusMinus)}`,
    ),
    sizes: face.features.map((f) => `${f.id} ${f.kind} ${nine(f.diameter?.value ?? 0)}`),
    centres: [...locateFace({ face, instruments: job.instruments }, { next: false }).features].map(
      ([id, f]) => `${id} ${micro(f.x)} ${micro(f.y)}`,
    ),
  }));
};

test('every example and public case reads as it did, and its centres stay', () => {
  const now = Object.fromEntries(files.map((f) => [f, told(f)]));
  if (process.env['UPDATE_TODAY'] === '1') writeFileSync(kept, `${JSON.stringify(now, null, 1)}\n`);
  expect(now).toEqual(JSON.parse(readFileSync(kept, 'utf8')));
});
