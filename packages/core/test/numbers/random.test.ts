import { describe, expect, test } from 'vitest';
import { chiSquareQuantile, chiSquareTail, normalBelow, normalQuantile, randomFrom } from '../../src/index.js';

describe('seeded chance', () => {
  test('the same seed gives the same stream, another seed another', () => {
    const draw = (seed: number): number[] => {
      const r = randomFrom(seed);
      return Array.from({ length: 20 }, () => r.normal());
    };
    expect(draw(7)).toEqual(draw(7));
    expect(draw(7)).not.toEqual(draw(8));
  });

  test('uniform and normal moments', () => {
    const r = randomFrom(3);
    const n = 100_000;
    const u = Array.from({ length: n }, () => r.uniform());
    const z = Array.from({ length: n }, () => r.normal());
    const mean = (v: readonly number[]): number => v.reduce((a, b) => a + b, 0) / v.length;
    expect(Math.abs(mean(u) - 0.5)).toBeLessThan(4 / Math.sqrt(12 * n));
    expect(Math.abs(mean(z))).toBeLessThan(4 / Math.sqrt(n));
    expect(Math.abs(mean(z.map((v) => v * v)) - 1)).toBeLessThan(4 * Math.sqrt(2 / n));
    expect(Math.abs(mean(z.map((v) => (Math.abs(v) < 1.959964 ? 1 : 0))) - 0.95)).toBeLessThan(
      4 * Math.sqrt((0.95 * 0.05) / n),
    );
  });
});

// Quantiles and tails against printed tables: NIST/SEMATECH e-Handbook of Statistical Methods 1.3.6.7.4 (from memory).
describe('distributions', () => {
  test.each([
    [0.95, 1, 3.841],
    [0.95, 2, 5.991],
    [0.95, 10, 18.307],
    [0.975, 5, 12.833],
    [0.025, 20, 9.591],
  ])('χ² %d of %d', (p, dof, x) => {
    expect(chiSquareQuantile(p, dof)).toBeCloseTo(x, 2);
    expect(chiSquareTail(x, dof)).toBeCloseTo(1 - p, 3);
  });
  test('normal', () => {
    expect(normalQuantile(0.9995)).toBeCloseTo(3.2905, 4);
    expect(normalBelow(1.96)).toBeCloseTo(0.975, 4);
  });
});
