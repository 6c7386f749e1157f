import { DEGREE, polar } from '@fayplate/core';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { bestCircle, dividing, indexOn } from '../../src/byhand/dividing.js';
import { hole, simple } from '../fixture.js';

/** Index circles of the usual set of three plates for a 40 : 1 head (from memory, as printed in handbooks). */
const circles = [15, 16, 17, 18, 19, 20, 21, 23, 27, 29, 31, 33, 37, 39, 41, 43, 47, 49];
const ring = (n: number) =>
  simple(
    Array.from({ length: n }, (_, i) => ({ ...hole(`H${i + 1}`, 0, 0), ...polar(80, 0.3 + (2 * Math.PI * i) / n) })),
  );

describe('dividing head', () => {
  // Printed examples for a 40 : 1 head: 6 and 42 divisions in a US Army ordnance course (OD1644), 7 and 8 in a training
  // page on simple indexing, 15 in a practice sheet, 24 in an engineers' data page; all read. The rest as in the
  // handbooks' tables, from memory.
  test.each([
    [6, 6, 12, 18],
    [6, 6, 26, 39],
    [42, 0, 20, 21],
    [7, 5, 15, 21],
    [8, 5, 0, 15],
    [15, 2, 18, 27],
    [24, 1, 10, 15],
    [3, 13, 13, 39],
    [9, 4, 12, 27],
    [11, 3, 21, 33],
    [13, 3, 3, 39],
    [14, 2, 42, 49],
    [18, 2, 4, 18],
    [28, 1, 21, 49],
    [48, 0, 15, 18],
  ])('%i divisions: %i turns and %i holes in the %i circle, exactly', (n, turns, holes, circle) => {
    const index = indexOn((2 * Math.PI) / n, 40, circle);
    expect(index).toMatchObject({ turns, holes });
    expect(Math.abs(index.error)).toBeLessThan(1e-14);
    const steps = Array.from({ length: n }, (_, i) => (2 * Math.PI * i) / n);
    const best = bestCircle(steps, 40, circles)!;
    for (const a of steps) expect(Math.abs(indexOn(a, 40, best).error)).toBeLessThan(1e-14);
  });

  // The same course and sheet: 54 minutes of arc are 2 holes on the 20 circle, 15 degrees are 1 turn and 18 holes on
  // the 27 circle.
  test.each([
    [54 / 60, 0, 2, 20],
    [15, 1, 18, 27],
  ])('%d degrees: %i turns and %i holes in the %i circle, exactly', (degrees, turns, holes, circle) => {
    const index = indexOn(degrees * DEGREE, 40, circle);
    expect(index).toMatchObject({ turns, holes });
    expect(Math.abs(index.error)).toBeLessThan(1e-14);
  });

  test('of the circles none has a smaller greatest error, over or under', () => {
    fc.assert(
      fc.property(fc.array(fc.double({ min: 0, max: 6, noNaN: true }), { minLength: 1, maxLength: 3 }), (angles) => {
        const worst = (c: number): number => Math.max(...angles.map((a) => Math.abs(indexOn(a, 40, c).error)));
        expect(worst(bestCircle(angles, 40, circles)!)).toBeLessThanOrEqual(Math.min(...circles.map(worst)) + 1e-7);
      }),
      { seed: 3, numRuns: 200 },
    );
  });

  // The same tables have no simple indexing for these: differential indexing is needed.
  test.each([51, 53, 57, 61])('%i divisions have none', (n) => {
    const steps = Array.from({ length: n }, (_, i) => (2 * Math.PI * i) / n);
    const best = bestCircle(steps, 40, circles)!;
    expect(Math.max(...steps.map((a) => Math.abs(indexOn(a, 40, best).error)))).toBeGreaterThan(1e-5);
  });

  test('any angle is set to within half a hole, and the error said is the error left', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 359.99, noNaN: true }),
        fc.constantFrom(...circles),
        fc.constantFrom(40, 60, 90),
        (degrees, circle, ratio) => {
          const i = indexOn(degrees * DEGREE, ratio, circle);
          const set = ((i.turns + i.holes / circle) / ratio) * 360;
          expect(Math.abs(degrees - set)).toBeLessThanOrEqual(180 / (ratio * circle) + 1e-9);
          expect(degrees * DEGREE - i.error).toBeCloseTo(set * DEGREE, 10);
        },
      ),
      { seed: 11, numRuns: 300 },
    );
  });

  test('holes of a ring of twelve are indexed exactly from the first', () => {
    const d = dividing(ring(12), { ratio: 40, circles }, { x: 0, y: 0 }, 'pump')!;
    expect(d.worst).toBeLessThan(1e-9);
    expect(d.holes[1]).toMatchObject({ hole: 'H2', index: { turns: 3 } });
    expect(d.holes[3]!.index).toMatchObject({ turns: 10, holes: 0, circle: null });
  });

  test('with one poor circle the error is said', () => {
    const d = dividing(ring(7), { ratio: 40, circles: [20] }, { x: 0, y: 0 }, 'pump')!;
    expect(d.worst).toBeGreaterThan(0.05);
    expect(d.worst).toBeLessThanOrEqual((80 * Math.PI) / (40 * 20));
  });
});
