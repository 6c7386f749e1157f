import { describe, expect, test } from 'vitest';
import { randomFrom } from '@fayplate/core';
import { shareOf } from '../../src/assembly/goes-on.js';

describe('a share of trials', () => {
  // Wilson's interval for 0 and 5 of 10: (0, 0.2775) and (0.2366, 0.7634), as general statistics packages give them
  // (from memory).
  test.each([
    [0, 10, 0, 0.2775],
    [5, 10, 0.2366, 0.7634],
    [10, 10, 0.7225, 1],
  ])('%d of %d', (hits, trials, low, high) => {
    const { between } = shareOf(hits, trials);
    expect(between[0]).toBeCloseTo(low, 4);
    expect(between[1]).toBeCloseTo(high, 4);
  });

  // Rule of three: none of n seen, the chance is below 3/n with 95 % (common practice).
  test('none or all of many: the error does not vanish and agrees with the rule of three', () => {
    const all = shareOf(5000, 5000);
    expect(all.share).toBe(1);
    expect(all.standardError).toBeGreaterThan(0);
    expect(2 * all.standardError * 5000).toBeGreaterThan(2);
    expect(2 * all.standardError * 5000).toBeLessThan(4);
    expect((1 - all.between[0]) * 5000).toBeCloseTo(3.84, 1);
  });

  test('in the middle it is the binomial one', () =>
    expect(shareOf(2500, 5000).standardError).toBeCloseTo(Math.sqrt(0.25 / 5000), 5));

  test('the interval holds the truth 95 times in 100', () => {
    const r = randomFrom(5);
    for (const p of [0.02, 0.5, 0.99]) {
      let held = 0;
      for (let k = 0; k < 2000; k += 1) {
        let hits = 0;
        for (let i = 0; i < 200; i += 1) if (r.uniform() < p) hits += 1;
        const [a, b] = shareOf(hits, 200).between;
        if (a <= p && p <= b) held += 1;
      }
      expect(held / 2000).toBeGreaterThan(0.93);
      expect(held / 2000).toBeLessThan(0.985);
    }
  });
});
