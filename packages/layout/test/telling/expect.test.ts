import { normalBelow } from '@fayplate/core';
import { describe, expect as that, test } from 'vitest';
import { type Expected, expectedLead, separation } from '../../src/telling/telling.js';

const h = (odds: number, mean: number, sigma: number): Expected => ({ index: 0, odds, mean, sigma });

describe('expected odds of whichever leads', () => {
  // Two normal classes of equal odds and spread, told apart at their midpoint: right with chance Φ(d / 2σ), a textbook
  // result.
  test.each([0.5, 1, 2, 4])('two alike, %d σ apart', (d) =>
    that(Math.abs(expectedLead([h(0.5, 0, 0.1), h(0.5, 0.1 * d, 0.1)]) - normalBelow(d / 2))).toBeLessThan(0.001),
  );

  test('hypotheses that expect the same are not told apart', () =>
    that(expectedLead([h(0.7, 5, 0.1), h(0.3, 5, 0.1)])).toBeCloseTo(0.7, 4));

  test('hypotheses far apart are told apart for certain', () => {
    that(expectedLead([h(0.4, 0, 0.1), h(0.35, 10, 0.1), h(0.25, 30, 0.2)])).toBeCloseTo(1, 4);
    that(separation([h(0.5, 0, 0.1), h(0.5, 1, 0.1)])).toBeGreaterThan(separation([h(0.5, 0, 0.1), h(0.5, 0.1, 0.1)]));
  });
});
