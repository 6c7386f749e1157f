import { describe, expect, test } from 'vitest';
import { dowelLimits, isoFit, isoFitPair, standardTolerance } from '../../src/index.js';

const micrometres = (mm: number | undefined): number => Math.round((mm ?? NaN) * 1000);
const deviations = (name: string, nominal: number): readonly [number, number] => {
  const f = isoFit(name, nominal);
  return [micrometres(f?.upper), micrometres(f?.lower)];
};

// ISO 286-1 standard tolerances, µm: two public data tables and a bar stock page.
describe('standard tolerances', () => {
  test.each([
    [40, 11, 16, 25, 39, 62], [65, 13, 19, 30, 46, 74], [100, 15, 22, 35, 54, 87], [150, 18, 25, 40, 63, 100], [200, 20, 29, 46, 72, 115],
  ])('%d mm', (nominal, ...want) => expect([5, 6, 7, 8, 9].map((g) => micrometres(standardTolerance(g, nominal) ?? NaN))).toEqual(want));

  // i = 0.45 ∛D + 0.001 D, D the geometric mean of the range; IT6 to IT14 are 10, 16, 25, 40, 64, 100, 160, 250, 400 i (ISO 286-1; factors read).
  test('the table is the formula to within its own rounding', () => {
    const ends = [3, 6, 10, 18, 30, 50, 80, 120, 180, 250, 315, 400, 500];
    for (let r = 1; r < ends.length; r += 1) {
      const d = Math.sqrt((ends[r - 1] ?? 0) * (ends[r] ?? 0));
      const i = 0.45 * Math.cbrt(d) + 0.001 * d;
      for (const [k, factor] of [7, 10, 16, 25, 40, 64, 100, 160, 250, 400].entries()) {
        const formula = factor * i;
        const table = (standardTolerance(5 + k, ends[r] ?? 0) ?? NaN) * 1000;
        expect([ends[r], k + 5, Math.abs(table - formula) <= Math.max(0.75, 0.06 * formula)]).toEqual([ends[r], k + 5, true]);
      }
    }
  });
  test('outside the tables there is none', () => {
    expect(standardTolerance(4, 50)).toBeNull();
    expect(standardTolerance(15, 50)).toBeNull();
    expect(standardTolerance(7, 501)).toBeNull();
    expect(standardTolerance(7, 0)).toBeNull();
  });
});

// Limits of 50 to 180 mm, µm, upper / lower: H7, H8 and h6 read in two places; g6, f7 and p6 from memory.
describe('limits of fits', () => {
  test.each([
    ['H7', 60, 30, 0], ['H7', 70, 30, 0], ['H7', 90, 35, 0], ['H7', 110, 35, 0], ['H7', 150, 40, 0],
    ['H8', 60, 46, 0], ['H8', 90, 54, 0], ['H8', 150, 63, 0],
    ['h6', 60, 0, -19], ['h6', 90, 0, -22], ['h6', 150, 0, -25],
    ['g6', 60, -10, -29], ['g6', 90, -12, -34], ['g6', 150, -14, -39],
    ['f7', 60, -30, -60], ['f7', 90, -36, -71], ['f7', 150, -43, -83],
    ['p6', 60, 51, 32], ['p6', 90, 59, 37], ['p6', 150, 68, 43],
    // From memory: common handbook limits of other sizes and of the tight holes.
    ['k6', 40, 18, 2], ['m6', 8, 15, 6], ['n6', 20, 28, 15], ['r6', 60, 60, 41], ['s6', 100, 93, 71],
    ['K7', 40, 7, -18], ['M7', 40, 0, -25], ['N7', 40, -8, -33], ['P7', 40, -17, -42], ['G7', 40, 34, 9], ['F8', 25, 53, 20], ['JS7', 40, 13, -12],
  ] as const)('%s at %d mm', (name, nominal, upper, lower) => expect(deviations(name, nominal)).toEqual([upper, lower]));

  // Worked from the limits above: H7/g6 at 100 mm clears 12 to 69 µm; H7/h6 0 to 57; H7/p6 bites 59 to 2.
  test.each([
    ['H7/g6', 12, 69], ['H7/h6', 0, 57], ['H7/p6', -59, -2],
  ])('%s at 100 mm', (name, least, most) => {
    const f = isoFitPair(name, 100);
    expect([micrometres(f?.least), micrometres(f?.most)]).toEqual([least, most]);
  });

  test('a boundary size belongs to the range that it ends', () => {
    expect(deviations('H7', 50)).toEqual([25, 0]);
    expect(deviations('H7', 50.001)).toEqual([30, 0]);
  });
  test.each([['H7', 0], ['H7', 501], ['H4', 50], ['x6', 50], ['Hs7', 50], ['K8', 50], ['', 50], ['7H', 50]])('refused: %s at %d', (name, nominal) =>
    expect(isoFit(name, nominal)).toBeNull());
  test('shaft and hole the wrong way round are refused', () => {
    expect(isoFitPair('g6/H7', 100)).toBeNull();
    expect(isoFitPair('H7', 100)).toBeNull();
    expect(isoFitPair('H7/g6/h6', 100)).toBeNull();
  });
});

// ISO 8734 pins are m6, ASME B18.8.2 standard pins nominal + 0.0002 ± 0.0001 in: from memory.
test('dowels', () => {
  expect(dowelLimits(8)).toMatchObject({ least: 8.006, most: 8.015 });
  expect((dowelLimits(9.525)?.most ?? 0) / 25.4).toBeCloseTo(0.3753, 6);
  expect(dowelLimits(7.3)).toBeNull();
});
