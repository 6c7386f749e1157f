import { describe, expect, test } from 'vitest';
import { readJob } from '../../src/index.js';
import { faultsOf, jobOf, shop } from '../support.js';

/** The small job with S as the face's centre and A straight up. */
const bench = (line: string): string =>
  shop([line]).replace('    features:', '    centre: S\n    up: A\n    features:');
const readingOf = (line: string) => {
  const [reading] = jobOf(bench(line)).faces[0]?.readings ?? [];
  if (reading === undefined) throw new Error(`no reading in ${line}`);
  return reading;
};

const degrees = (d: number): number => (d * Math.PI) / 180;

describe('run-out', () => {
  test.each([
    ['runout A about S = 0.004 by caliper', ['A', 'S'], 0.004, null],
    ['runout A about S = 0.004 high toward C by caliper', ['A', 'S', 'S', 'C'], 0.004, [0, 15]],
    ['runout A about S high toward C ± 10 deg = 0.004 by caliper', ['A', 'S', 'S', 'C'], 0.004, [0, 10]],
    ['Runout A about S = 0.2 mm ± 0.01 high towards C', ['A', 'S', 'S', 'C'], 0.2, [0, 15]],
    // Angles are counted from the face's own 12 o'clock: A lies there, S is its centre.
    ['runout B about S = 0.2 high toward 60 deg ± 5 deg ± 0.01', ['B', 'S', 'S', 'A'], 0.2, [-60, 5]],
    ['runout B about S = 0.2 high at 2:30 ± 0.01', ['B', 'S', 'S', 'A'], 0.2, [-75, 15]],
    ["runout B about S = 0.2 high at 3 o'clock ± 0.01", ['B', 'S', 'S', 'A'], 0.2, [-90, 15]],
    ['runout B about S = 0 ± 0.01', ['B', 'S'], 0, null],
  ] as const)('%s', (line, features, value, high) => {
    const r = readingOf(line);
    expect(r.kind).toBe('runout');
    expect(r.features).toEqual(features);
    expect(r.value).toBeCloseTo(value, 12);
    expect(r.runOut?.radius).toBeNull();
    if (high === null) expect(r.runOut?.high).toBeNull();
    else {
      expect(r.runOut?.high?.turn).toBeCloseTo(degrees(high[0]), 12);
      expect(r.runOut?.high?.within).toBeCloseTo(degrees(high[1]), 12);
    }
  });

  test('of a face, at its radius', () => {
    const r = readingOf('runout face about S at 2.5 in = 0.002 in high toward C ± 0.0005');
    expect(r.runOut?.radius).toBeCloseTo(63.5, 9);
    expect(r.features).toEqual(['S', 'S', 'S', 'C']);
    expect([r.value, r.plusMinus, r.unit]).toEqual([expect.closeTo(0.0508, 9), expect.closeTo(0.0127, 9), 'in']);
  });

  test.each([
    ['runout A S = 0.1 by caliper', /"about" and one feature on the axis/],
    ['runout A about = 0.1 by caliper', /"about" and one feature/],
    ['runout A about S by caliper', /= and a value, as in: runout A about B/],
    ['runout face about S = 0.1 by caliper', /"at" and the radius/],
    ['runout A about S at 60 mm = 0.1 by caliper', /no radius: a rim has its own/],
    ['runout A about S = 0.1 high C by caliper', /"toward", as in/],
    ['runout A about S = 0.1 high toward Z by caliper', /a feature of this face/],
    ['runout A about S = 0.1 high toward 12 potatoes by caliper', /a feature, an angle clockwise from 12/],
    ['runout A about S = -0.1 by caliper', /not below zero/],
    ['runout A about S = 0.1', /± or "by" an instrument/],
    ['runout A about S = 0.1 ± 0.01 high toward C ± 0.02', /one ± of the reading only/],
    ['runout A about A = 0.1 by caliper', /another feature/],
    ['runout A about S about C = 0.1 by caliper', /"about" once only/],
    ['runout A about S = 0.1 by protractor', /measures a length/],
  ])('refused: %s', (line, expected) =>
    expect(faultsOf(readJob(bench(line))).map((f) => f.expected)).toEqual([expect.stringMatching(expected)]),
  );

  test('an angle wants a face whose 12 o’clock is fixed', () => {
    const loose = readJob(shop(['runout A about B = 0.1 high toward 30 deg by caliper']));
    expect(faultsOf(loose).map((f) => f.expected)).toEqual([expect.stringMatching(/nothing here says where 12/)]);
  });
});
