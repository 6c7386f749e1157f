import { describe, expect, test } from 'vitest';
import { calibrate } from './studies/calibration.js';
import { alarms, flagged, planted } from './studies/snooping.js';

/** Smaller runs, seeds fixed, of what `bench` does over 2,000 shops; each bound is what that many trials can tell. */
const errorsOff = (share: number, expected: number, trials: number): number =>
  Math.abs(share - expected) / Math.sqrt((expected * (1 - expected)) / trials);

describe('the ± is what it says', () => {
  const c = calibrate(150, 31_000);
  test('95 % ellipses hold the truth 95 times in 100', () => {
    expect(c.unsolved).toBe(0);
    // The centres of one shop hang together: as if there were a third as many.
    expect(errorsOff(c.held, 0.95, c.ellipses / 3)).toBeLessThan(3);
  });
  test('no unbiased method could do better, and the drawing board does far worse', () => {
    expect(Math.abs(c.overBound - 1)).toBeLessThan(3 * c.standardError);
    expect(c.standardError).toBeLessThan(0.04);
    expect(c.byHand).toBeGreaterThan(5);
  });
});

describe('misreadings are found as often as theory says', () => {
  test('one error of 8 σ, and two of 12 σ', () => {
    expect(planted(60, 32_000, 1, 8).named.share).toBeGreaterThanOrEqual(0.95);
    expect(planted(60, 33_000, 2, 12).named.share).toBeGreaterThanOrEqual(0.85);
  });
  test('4.94 σ/√r lifts its own |w| above 3.29 in 95 of 100', () => {
    expect(errorsOff(flagged(250, 34_000, 4.94).share, 0.95, 250)).toBeLessThan(3);
    expect(flagged(60, 34_000, 1).share).toBeLessThan(0.2);
  });
  test('clean jobs: one alarm in a thousand readings', () => {
    const { perReading } = alarms(250, 35_000);
    expect(errorsOff(perReading.share, 0.001, perReading.trials)).toBeLessThan(3);
  });
});
