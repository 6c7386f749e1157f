import { describe, expect, test } from 'vitest';
import { adjust } from '../../src/adjust/adjust.js';
import type { Adjustment } from '../../src/adjust/adjustment.js';
import { networkOf } from '../../src/network/network.js';
import { wOf } from '../../src/suspects/standardized.js';
import { feature, reading, survey } from '../support.js';
import { truthVector } from '../simulate.js';

/**
 * Published distance networks. From F. Krumm, Geodetic Network Adjustment Examples,
 * University of Stuttgart, rev. 3.5 (2020), and the adjustment results kept in GNU Gama's test suite, which agree in
 * every digit; the textbook that each was taken from is named beside it. Held points are `at` readings a thousand times
 * finer than the rest.
 */
type Places = Readonly<Record<string, readonly [number, number]>>;

const adjusted = (
  held: Places,
  about: Places,
  distances: readonly (readonly [string, string, number])[],
  sigma: number,
): Adjustment => {
  const names = [...Object.keys(held), ...Object.keys(about)];
  const readings = [
    ...distances.map(([a, b, d]) => reading(`centres ${a} ${b}`, d, 2 * sigma)),
    ...Object.entries(held).map(([id, at]) => reading(`at ${id}`, at, 2e-3 * sigma)),
  ];
  const network = networkOf(
    survey(
      names.map((n) => feature(n)),
      readings,
    ),
  );
  const truth = new Map(Object.entries({ ...held, ...about }).map(([id, [x, y]]) => [id, { x, y, r: 0 }]));
  return adjust(network, truthVector(network, truth));
};

const placeOf = (a: Adjustment, id: string): readonly [number, number] => {
  const f = a.network.unknowns.features.get(id);
  if (f === undefined) throw new Error(id);
  return [a.values[f.x] ?? Number.NaN, a.values[f.y] ?? Number.NaN];
};

/** Standard deviations of x and y, rescaled by the fit as the books do. */
const deviations = (a: Adjustment, id: string): readonly [number, number] => {
  const f = a.network.unknowns.features.get(id);
  if (f === undefined) throw new Error(id);
  const s0 = Math.sqrt(a.chi2 / a.dof);
  return [s0 * Math.sqrt(a.cofactor(f.x, f.x)), s0 * Math.sqrt(a.cofactor(f.y, f.y))];
};

const close = (got: readonly number[], want: readonly number[], within: number): void => {
  expect(got).toHaveLength(want.length);
  for (const [i, w] of want.entries()) expect(Math.abs((got[i] ?? Number.NaN) - w)).toBeLessThanOrEqual(within);
};

/** Books give v = adjusted − observed. */
const corrections = (a: Adjustment, count: number): readonly number[] =>
  [...a.residuals].slice(0, count).map((r) => -r);
const shares = (a: Adjustment, count: number): readonly number[] => [...a.redundancy].slice(0, count);

describe('Ghilani 2010, Adjustment Computations, examples 14.5 (p. 251) and 19.3 (p. 404)', () => {
  // 2,410,000 and 390,000 taken off so that the digits serve.
  const held: Places = { Badger: [0, 0], Bucky: [1820, -3118.778] };
  const about: Places = { Wisconsin: [5776.819, 1043.461], Campus: [6892.67, -2396.55] };
  const distances = [
    ['Badger', 'Wisconsin', 5870.302],
    ['Badger', 'Campus', 7297.588],
    ['Wisconsin', 'Campus', 3616.434],
    ['Wisconsin', 'Bucky', 5742.878],
    ['Campus', 'Bucky', 5123.76],
  ] as const;

  test('with unit weights: coordinates, deviations, residuals and redundancy numbers', () => {
    const a = adjusted(held, about, distances, 1);
    close(placeOf(a, 'Wisconsin'), [5776.9044, 1043.2945], 2e-4);
    close(placeOf(a, 'Campus'), [6892.6955, -2396.7449], 2e-4);
    close(deviations(a, 'Wisconsin'), [0.1488, 0.2206], 1e-4);
    close(deviations(a, 'Campus'), [0.1038, 0.2705], 1e-4);
    close(corrections(a, 5), [0.0547, -0.079, 0.0368, -0.0616, 0.0639], 1e-4);
    close(shares(a, 5), [0.1619, 0.338, 0.0731, 0.2057, 0.2213], 1e-4);
    expect(a.chi2).toBeCloseTo(0.01847, 5);
    expect(a.dof).toBe(1);
  });

  test('with sigma 0.01 every |w| is 13.59, so that nothing says which line is wrong', () => {
    const a = adjusted(held, about, distances, 0.01);
    expect(a.chi2).toBeCloseTo(184.7, 1);
    for (const i of [0, 1, 2, 3, 4]) expect(Math.abs(wOf(a, i) ?? Number.NaN)).toBeCloseTo(13.59, 2);
  });

  test('with the first line 5870.640 the residuals are below 1e-4', () => {
    const a = adjusted(held, about, [['Badger', 'Wisconsin', 5870.64], ...distances.slice(1)], 1);
    expect(Math.max(...a.residuals.map(Math.abs))).toBeLessThan(1e-4);
  });
});

describe('Strang & Borre 1997, Linear Algebra, Geodesy, and GPS', () => {
  test('example 10.1 (p. 345): one point from three', () => {
    const held: Places = { A: [170.71, 270.71], B: [100, 100], C: [241.42, 100] };
    const a = adjusted(
      held,
      { P: [170.71, 170.71] },
      [
        ['A', 'P', 100.01],
        ['B', 'P', 100.02],
        ['C', 'P', 100.03],
      ],
      0.01,
    );
    close(placeOf(a, 'P'), [170.7029254, 170.7233566], 1e-6);
    close(deviations(a, 'P'), [0.03303, 0.02335], 1e-5);
    close(corrections(a, 3), [-0.023356, -0.016516, -0.016512], 1e-6);
    close(shares(a, 3), [0.5, 0.25, 0.2499], 1e-4);
    expect(a.chi2).toBeCloseTo(10.9094, 3);
    for (const i of [0, 1, 2]) expect(Math.abs(wOf(a, i) ?? Number.NaN)).toBeCloseTo(3.3029, 3);
  });

  test('example 12.4 (p. 411): a free network, on the datum of least norm', () => {
    const about: Places = { A: [170.71, 270.71], B: [100, 100], C: [241.42, 100], P: [170.71, 170.71] };
    const a = adjusted(
      {},
      about,
      [
        ['A', 'P', 100.01],
        ['B', 'P', 100.02],
        ['C', 'P', 100.03],
        ['A', 'B', 184.785],
        ['B', 'C', 141.44],
        ['A', 'C', 184.805],
      ],
      0.01,
    );
    close(corrections(a, 6), [-0.0072, -0.0051, -0.0051, 0.0039, 0.0021, 0.0039], 5e-5);
    close(shares(a, 6), [0.3743, 0.1871, 0.1872, 0.1096, 0.0321, 0.1097], 5e-5);
    expect(a.chi2).toBeCloseTo(1.38383, 4);
    expect(a.dof).toBe(1);
    expect(a.nullSpace).toHaveLength(3);
    const s0 = Math.sqrt(a.chi2);
    const free = leastNorm(a);
    const want = { A: [0.0081, 0.0055], B: [0.0064, 0.0071], C: [0.0064, 0.007], P: [0.0108, 0.0068] } as const;
    for (const [id, w] of Object.entries(want))
      close(
        free(id).map((q) => s0 * Math.sqrt(q)),
        w,
        6e-5,
      );
  });
});

/**
 * Diagonal of the pseudo-inverse: N⁻ between vectors freed of the rigid motions (Baarda's S-transformation onto the
 * least-norm datum).
 */
const leastNorm = (a: Adjustment): ((id: string) => readonly number[]) => {
  const basis: Float64Array[] = [];
  const off = (v: Float64Array): Float64Array =>
    basis.reduce((w, b) => {
      const along = w.reduce((s, e, i) => s + e * (b[i] ?? 0), 0);
      return w.map((e, i) => e - along * (b[i] ?? 0));
    }, v);
  for (const n of a.nullSpace) {
    const w = off(n);
    const norm = Math.hypot(...w);
    basis.push(w.map((e) => e / norm));
  }
  const quadratic = (slot: number): number => {
    const e = off(Float64Array.from(a.values, (_, i) => (i === slot ? 1 : 0)));
    const x = a.solve(e);
    return e.reduce((s, v, i) => s + v * (x[i] ?? 0), 0);
  };
  return (id) => {
    const f = a.network.unknowns.features.get(id);
    return f === undefined ? [] : [quadratic(f.x), quadratic(f.y)];
  };
};

describe('Benning 2011, Statistik in Geodäsie, Geoinformation und Bauwesen', () => {
  test('example 8-2 (p. 256): two new points', () => {
    const held: Places = { A: [0, 1000], B: [1000, 1000] };
    const distances = [
      ['A', 'C', 1000.02],
      ['A', 'D', 1414.2],
      ['B', 'C', 1414.24],
      ['B', 'D', 999.98],
      ['C', 'D', 1000],
    ] as const;
    const a = adjusted(held, { C: [0, 0], D: [1000, 0] }, distances, 0.01);
    close(placeOf(a, 'C'), [-0.0095845, -0.0226012], 2e-6);
    close(placeOf(a, 'D'), [999.993016, 0.0173987], 2e-6);
    close(deviations(a, 'C'), [0.009, 0.0064], 1e-4);
    close(deviations(a, 'D'), [0.009, 0.0064], 1e-4);
    close(corrections(a, 5), [0.0026, -0.0037, -0.0037, 0.0026, 0.0026], 1e-4);
    close(shares(a, 5), [1 / 7, 2 / 7, 2 / 7, 1 / 7, 1 / 7], 1e-4);
    expect(a.chi2).toBeCloseTo(0.473676, 5);
  });

  test('example 8-8 (pp. 285–291): a reading that little checks', () => {
    const held: Places = { A: [3000, 2000], B: [1000, 2000], C: [3000, 2100], D: [1000, 2100], E: [2000, 1000] };
    const distances = [
      ['A', 'P', 1000],
      ['B', 'P', 1000],
      ['C', 'P', 1005],
      ['D', 'P', 1005],
      ['E', 'P', 1000],
    ] as const;
    const a = adjusted(held, { P: [2000, 2000] }, distances, 0.02);
    close(placeOf(a, 'P'), [2000, 1999.99757], 1e-5);
    close(deviations(a, 'P'), [0.005, 0.01], 1e-4);
    close(shares(a, 5), [0.7488, 0.7488, 0.7415, 0.7415, 0.0194], 1e-4);
    expect(shares(a, 5).reduce((s, r) => s + r, 0)).toBeCloseTo(3, 4);
    expect(a.chi2).toBeCloseTo(0.758485, 4);
    close(
      [0, 1, 2, 3, 4].map((i) => Math.abs(wOf(a, i) ?? Number.NaN)),
      [0, 0, 0.708, 0.708, 0.871],
      1e-3,
    );
  });
});
