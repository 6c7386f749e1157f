import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { faultLines, readJob } from '../src/index.js';
import { jobOf } from './support.js';

const text = readFileSync(join(import.meta.dirname, 'contract.yaml'), 'utf8');

/** Every section and key of a job file (packages/job/src/schema) in one job. */
describe('a job with every key', () => {
  test('reads whole', () => {
    const read = readJob(text);
    expect(read.ok ? [] : faultLines(text, read.faults)).toEqual([]);
  });

  test('its sections are all there', () => {
    const job = jobOf(text);
    expect(job.name).toBe('Heron Lane lift pump');
    expect(job.units).toBe('in');
    expect([...job.instruments.keys()]).toEqual(['caliper', 'rule', 'protractor', 'square']);
    expect(job.faces.map((f) => [f.name, f.features.length, f.readings.length])).toEqual([
      ['pump', 6, 9],
      ['motor', 3, 0],
    ]);
    expect(job.plate?.thickness).toBe('from stack');
    expect(job.plate?.locate.get('motor')).toEqual({ as: 'own dowels', features: ['D1', 'D2'], second: 'slot' });
    expect(job.plate?.fasten.get('pump')?.except).toEqual(new Map([['P3', 'none']]));
    expect(job.machine?.topSpeed).toBe(2500);
    expect(job.stack?.limits.map((l) => [l.name, [...l.sum]])).toEqual([
      [
        'engagement',
        [
          ['reach', 1],
          ['plate', -1],
          ['gasket', -1],
          ['mouth', -1],
        ],
      ],
      [
        'tip gap',
        [
          ['floor', 1],
          ['plate', 1],
          ['gasket', 1],
          ['reach', -1],
        ],
      ],
    ]);
    expect(job.gaskets[0]).toEqual({ face: 'pump', holeClearance: 25.4 / 32, bore: 6.125 * 25.4, outline: 'plate' });
    expect(job.drilled?.readings[0]?.value).toBeCloseTo(7.876 * 25.4, 9);
    expect(job.print).toEqual({ paper: 'A4', margin: 8, overlap: 10, printer: 'workshop-laser' });
  });

  test('a vacant P4 would be missed', () => expect(readJob(text.replace('P10-P3', 'P10-P4')).ok).toBe(false));
});
