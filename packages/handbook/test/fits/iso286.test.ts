import { describe, expect, test } from 'vitest';
import { dowelLimits, isoFit, isoFitPair, standardTolerance } from '../../src/index.js';

const micrometres = (mm: number | undefined): number => Math.round((mm ?? NaN) * 1000) + 0;
const deviations = (name: string, nominal: number): readonly [number, number] => {
  const f = isoFit(name, nominal);
  return [micrometres(f?.upper), micrometres(f?.lower)];
};

// ISO 286-1 standard tolerances, µm: two public data tables and a bar stock page.
describe('standard tolerances', () => {
  test.each([
    [40, 11, 16, 25, 39, 62],
    [65, 13, 19, 30, 46, 74],
    [100, 15, 22, 35, 54, 87],
    [150, 18, 25, 40, 63, 100],
    [200, 20, 29, 46, 72, 115],
  ])('%d mm', (nominal, ...want) =>
    expect([5, 6, 7, 8, 9].map((g) => micrometres(standardTolerance(g, nominal) ?? NaN))).toEqual(want),
  );

  // i = 0.45 ∛D + 0.001 D, D the geometric mean of the range; IT6 to IT14 are 10, 16, 25, 40, 64, 100, 160, 250, 400 i
  // (ISO 286-1; factors read).
  test('the table is the formula to within its own rounding', () => {
    const ends = [3, 6, 10, 18, 30, 50, 80, 120, 180, 250, 315, 400, 500];
    for (let r = 1; r < ends.length; r += 1) {
      const d = Math.sqrt((ends[r - 1] ?? 0) * (ends[r] ?? 0));
      const i = 0.45 * Math.cbrt(d) + 0.001 * d;
      for (const [k, factor] of [7, 10, 16, 25, 40, 64, 100, 160, 250, 400].entries()) {
        const formula = factor * i;
        const table = (standardTolerance(5 + k, ends[r] ?? 0) ?? NaN) * 1000;
        expect([ends[r], k + 5, Math.abs(table - formula) <= Math.max(0.75, 0.06 * formula)]).toEqual([
          ends[r],
          k + 5,
          true,
        ]);
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

/** Deviations in µm, upper / lower, by the end of each range in mm. */
type Row = readonly (readonly [upper: number, lower: number])[];

/**
 * Shafts to 80 mm as printed in a maker's extract of JIS B 0401 (1999), which is ISO 286: g6, f7, h6, k6, m6, n6, p6.
 */
const shafts: Readonly<Record<string, Row>> = {
  g6: [
    [-2, -8],
    [-4, -12],
    [-5, -14],
    [-6, -17],
    [-7, -20],
    [-9, -25],
    [-10, -29],
  ],
  f7: [
    [-6, -16],
    [-10, -22],
    [-13, -28],
    [-16, -34],
    [-20, -41],
    [-25, -50],
    [-30, -60],
  ],
  h6: [
    [0, -6],
    [0, -8],
    [0, -9],
    [0, -11],
    [0, -13],
    [0, -16],
    [0, -19],
  ],
  k6: [
    [6, 0],
    [9, 1],
    [10, 1],
    [12, 1],
    [15, 2],
    [18, 2],
    [21, 2],
  ],
  m6: [
    [8, 2],
    [12, 4],
    [15, 6],
    [18, 7],
    [21, 8],
    [25, 9],
    [30, 11],
  ],
  n6: [
    [10, 4],
    [16, 8],
    [19, 10],
    [23, 12],
    [28, 15],
    [33, 17],
    [39, 20],
  ],
  p6: [
    [12, 6],
    [20, 12],
    [24, 15],
    [29, 18],
    [35, 22],
    [42, 26],
    [51, 32],
  ],
  d8: [
    [-20, -34],
    [-30, -48],
    [-40, -62],
    [-50, -77],
    [-65, -98],
    [-80, -119],
    [-100, -146],
  ],
  e8: [
    [-14, -28],
    [-20, -38],
    [-25, -47],
    [-32, -59],
    [-40, -73],
    [-50, -89],
    [-60, -106],
  ],
};
const ends = [3, 6, 10, 18, 30, 50, 80];

/**
 * Lower deviations m, n, p, r, s of 80 to 180 mm and upper ones d, e, f, g of 200 to 500 mm: a machine drawing
 * textbook.
 */
const textbook: readonly (readonly [nominal: number, letters: string, values: readonly number[]])[] = [
  [100, 'mnprs', [13, 23, 37, 51, 71]],
  [120, 'mnprs', [13, 23, 37, 54, 79]],
  [140, 'mnprs', [15, 27, 43, 63, 92]],
  [160, 'mnprs', [15, 27, 43, 65, 100]],
  [180, 'mnprs', [15, 27, 43, 68, 108]],
  [225, 'defg', [-170, -100, -50, -15]],
  [300, 'defg', [-190, -110, -56, -17]],
  [400, 'defg', [-210, -125, -62, -18]],
  [500, 'defg', [-230, -135, -68, -20]],
];

describe('fundamental deviations as printed', () => {
  test.each(Object.entries(shafts))('%s', (name, row) => {
    expect(ends.map((end) => deviations(name, end))).toEqual(row);
  });
  test.each(textbook)('at %d mm: %s', (nominal, letters, values) => {
    expect([...letters].map((l) => deviations(`${l}6`, nominal)['defg'.includes(l) ? 0 : 1])).toEqual(values);
  });
  // r and s of every range to 80 mm, lower deviation of grade 6: from memory.
  test.each([
    ['r6', [10, 15, 19, 23, 28, 34, 41, 43]],
    ['s6', [14, 19, 23, 28, 35, 43, 53, 59]],
  ])('%s', (name, lower) =>
    expect([3, 6, 10, 18, 30, 50, 65, 80].map((end) => deviations(name, end)[1])).toEqual(lower),
  );
  // Tolerances h5 to h9 of every range as a tool maker's catalogue prints them.
  test.each([
    [3, 4, 6, 10, 14, 25],
    [6, 5, 8, 12, 18, 30],
    [10, 6, 9, 15, 22, 36],
    [18, 8, 11, 18, 27, 43],
    [30, 9, 13, 21, 33, 52],
    [50, 11, 16, 25, 39, 62],
    [80, 13, 19, 30, 46, 74],
    [120, 15, 22, 35, 54, 87],
    [180, 18, 25, 40, 63, 100],
    [250, 20, 29, 46, 72, 115],
    [315, 23, 32, 52, 81, 130],
    [400, 25, 36, 57, 89, 140],
    [500, 27, 40, 63, 97, 155],
  ])('h5 to h9 at %d mm', (nominal, ...want) =>
    expect([5, 6, 7, 8, 9].map((g) => deviations(`h${g}`, nominal)[1])).toEqual(want.map((v) => -v)),
  );
});

// Limits of 50 to 180 mm, µm, upper / lower: H7, H8 and h6 read in two places, the others from memory.
describe('limits of fits', () => {
  test.each([
    ['H7', 60, 30, 0],
    ['H7', 70, 30, 0],
    ['H7', 90, 35, 0],
    ['H7', 110, 35, 0],
    ['H7', 150, 40, 0],
    ['H8', 60, 46, 0],
    ['H8', 90, 54, 0],
    ['H8', 150, 63, 0],
    ['h6', 60, 0, -19],
    ['h6', 90, 0, -22],
    ['h6', 150, 0, -25],
    ['g6', 60, -10, -29],
    ['g6', 90, -12, -34],
    ['g6', 150, -14, -39],
    ['f7', 60, -30, -60],
    ['f7', 90, -36, -71],
    ['f7', 150, -43, -83],
    ['p6', 60, 51, 32],
    ['p6', 90, 59, 37],
    ['p6', 150, 68, 43],
    // From memory: common handbook limits of other sizes and of the tight holes.
    ['k6', 40, 18, 2],
    ['m6', 8, 15, 6],
    ['n6', 20, 28, 15],
    ['r6', 60, 60, 41],
    ['s6', 100, 93, 71],
    // M6 of 250 to 315 mm is the standard's exception; its neighbours in size, grade and letter are not.
    ['M6', 300, -9, -41],
    ['M6', 250, -8, -37],
    ['M6', 350, -10, -46],
    ['M7', 300, 0, -52],
    ['N6', 300, -25, -57],
    ['K7', 40, 7, -18],
    ['M7', 40, 0, -25],
    ['N7', 40, -8, -33],
    ['P7', 40, -17, -42],
    ['G7', 40, 34, 9],
    ['F8', 25, 53, 20],
    ['JS7', 40, 13, -12],
  ] as const)('%s at %d mm', (name, nominal, upper, lower) =>
    expect(deviations(name, nominal)).toEqual([upper, lower]),
  );

  // Worked from the limits above: H7/g6 at 100 mm clears 12 to 69 µm; H7/h6 0 to 57; H7/p6 bites 59 to 2.
  test.each([
    ['H7/g6', 12, 69],
    ['H7/h6', 0, 57],
    ['H7/p6', -59, -2],
  ])('%s at 100 mm', (name, least, most) => {
    const f = isoFitPair(name, 100);
    expect([micrometres(f?.least), micrometres(f?.most)]).toEqual([least, most]);
  });

  test('a boundary size belongs to the range that it ends', () => {
    expect(deviations('H7', 50)).toEqual([25, 0]);
    expect(deviations('H7', 50.001)).toEqual([30, 0]);
  });
  test.each([
    ['H7', 0],
    ['H7', 501],
    ['H4', 50],
    ['x6', 50],
    ['Hs7', 50],
    ['K8', 50],
    ['', 50],
    ['7H', 50],
  ])('refused: %s at %d', (name, nominal) => expect(isoFit(name, nominal)).toBeNull());
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
  for (const inches of [1 / 16, 3 / 32, 1 / 8, 3 / 16, 1 / 4, 5 / 16, 3 / 8, 7 / 16, 1 / 2, 5 / 8, 3 / 4, 7 / 8, 1]) {
    expect([inches, (dowelLimits(inches * 25.4)?.least ?? 0) / 25.4]).toEqual([
      inches,
      expect.closeTo(inches + 0.0001, 9),
    ]);
  }
});
