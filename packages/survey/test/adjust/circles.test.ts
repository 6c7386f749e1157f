import { describe, expect, test } from 'vitest';
import { adjust } from '../../src/adjust/adjust.js';
import { networkOf } from '../../src/network/network.js';
import { feature, reading, survey } from '../support.js';

/** The geometric circle of a set of points, each a `touch` of one rim, from their mean and a small radius. */
const fit = (points: readonly (readonly [number, number])[]) => {
  const network = networkOf(
    survey(
      [feature('C', { diameter: null })],
      points.map((p) => reading('touch C', p, 2)),
    ),
  );
  const mean = (k: 0 | 1): number => points.reduce((s, p) => s + p[k], 0) / points.length;
  const a = adjust(network, Float64Array.from([mean(0), mean(1), 1]));
  return { centre: a.values.slice(0, 2), radius: a.values[2] ?? Number.NaN, sum: a.chi2, ...a.stopped };
};

describe('published circle fits through `touch`', () => {
  test('Gander, Golub & Strebel 1994, BIT 34, 558–578: six points, geometric fit', () => {
    const f = fit([
      [1, 7],
      [2, 6],
      [5, 8],
      [7, 7],
      [9, 5],
      [3, 7],
    ]);
    expect(f.converged).toBe(true);
    expect(f.centre[0]).toBeCloseTo(4.739782, 6);
    expect(f.centre[1]).toBeCloseTo(2.983533, 6);
    expect(f.radius).toBeCloseTo(4.714226, 6);
    expect(f.sum).toBeCloseTo(1.227599, 6);
  });

  test('the least-squares circle of a public notebook (read in one place, recomputed): a nearly whole circle', () => {
    const f = fit([
      [9, 34],
      [35, 10],
      [-13, 6],
      [10, -14],
      [23, 27],
      [0, -10],
    ]);
    expect(f.centre[0]).toBeCloseTo(10.500087, 5);
    expect(f.centre[1]).toBeCloseTo(9.659949, 5);
    expect(f.radius).toBeCloseTo(23.333528, 5);
    expect(f.sum).toBeCloseTo(7.711852, 5);
  });
});
