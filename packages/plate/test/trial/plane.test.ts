import { polar, randomFrom } from '@fayplate/core';
import { describe, expect, test } from 'vitest';
import { fitPlane, heightAt, leanOf } from '../../src/trial/plane.js';

/** Three places on a circle of radius 100, a third of a turn apart: 12, 4 and 8 o'clock. */
const places = [90, -30, 210].map((deg) => polar(100, (deg * Math.PI) / 180));
const at = (values: readonly number[], sigma = 0.015) =>
  values.map((value, i) => ({ ...places[i % 3]!, value, sigma }));

describe('a plane through three heights', () => {
  // z at 12 is 0.30, at 4 and 8 0.60: mean 0.50, and it falls by 0.30 over 150 mm of height.
  const plane = fitPlane(at([0.3, 0.6, 0.6]))!;

  test('goes through them', () => {
    expect(plane.at[0]).toBeCloseTo(0.5, 12);
    expect(plane.at[1]).toBeCloseTo(0, 12);
    expect(plane.at[2]).toBeCloseTo(-0.3 / 150, 12);
    expect([plane.dof, plane.p]).toEqual([0, null]);
  });

  test('its uncertainties are those of an even spread: σ²/3 of the height, 2 σ²/(3 R²) of either slope', () => {
    expect(plane.covariance[0]![0]).toBeCloseTo(0.015 ** 2 / 3, 12);
    expect(plane.covariance[1]![1]).toBeCloseTo((2 * 0.015 ** 2) / (3 * 100 ** 2), 15);
    expect(plane.covariance[2]![2]).toBeCloseTo((2 * 0.015 ** 2) / (3 * 100 ** 2), 15);
    expect(heightAt(plane, places[0]!).sigma).toBeCloseTo(0.015, 12);
  });

  test('leans by 0.002 towards 6 o’clock, ± 0.03 · √(2/3) / 100', () => {
    const lean = leanOf(plane);
    expect(lean.tilt).toBeCloseTo(Math.atan(0.002), 12);
    expect(lean.towards).toBeCloseTo(-Math.PI / 2, 9);
    expect(2 * lean.sigma).toBeCloseTo((0.03 * Math.sqrt(2 / 3)) / 100, 12);
    expect(lean.sure).toBe(true);
  });
});

test('places on one line, and fewer than three, make no plane', () => {
  expect(fitPlane([0, 1, 2].map((k) => ({ x: 50 * k, y: 20 * k, value: 1, sigma: 0.01 })))).toBeNull();
  expect(fitPlane(at([1, 2]).slice(0, 2))).toBeNull();
});

test('a level joint is called leaning 5 times in 100, and its misfit is as likely as said', () => {
  const random = randomFrom(11);
  const n = 2000;
  let [leaning, bad] = [0, 0];
  for (let i = 0; i < n; i++) {
    const heights = [0, 60, 120, 180, 240, 300].map((deg) => ({
      ...polar(80, (deg * Math.PI) / 180),
      value: 0.4 + 0.02 * random.normal(),
      sigma: 0.02,
    }));
    const plane = fitPlane(heights)!;
    if (leanOf(plane).sure) leaning++;
    if (plane.p! < 0.1) bad++;
  }
  // Three standard deviations of 2,000 draws.
  expect(Math.abs(leaning / n - 0.05)).toBeLessThan(3 * Math.sqrt((0.05 * 0.95) / n));
  expect(Math.abs(bad / n - 0.1)).toBeLessThan(3 * Math.sqrt(0.09 / n));
});
