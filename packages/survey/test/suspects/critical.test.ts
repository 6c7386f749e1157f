import { chiSquareTail } from '@fayplate/core';
import quantile from '@stdlib/stats-base-dists-chisquare-quantile';
import { describe, expect, test } from 'vitest';
import { FACTOR95 } from '../../src/frame/located.js';
import { CRITICAL, DETECTABLE } from '../../src/suspects/standardized.js';

describe('critical values', () => {
  test(
    "Baarda's test: 3.29 at α = 0.001 (read as 3.2905), an error " +
      'of 4.132 σ/√r found 80 times in 100 (√17.07, read as 17)',
    () => {
      expect(CRITICAL).toBeCloseTo(3.2905, 2);
      expect(DETECTABLE).toBeCloseTo(4.132, 3);
      expect(DETECTABLE ** 2).toBeCloseTo(17.07, 1);
      // A survey adjustment handbook page gives 5.8 σ for a redundancy number of one half.
      expect(DETECTABLE / Math.sqrt(0.5)).toBeCloseTo(5.84, 2);
    },
  );

  test('χ² tails of the global test against @stdlib, from 1 to 1,000 degrees of freedom (its quantile strays above)', () => {
    for (const dof of [1, 2, 3, 5, 10, 14, 20, 100, 1000]) {
      for (const p of [0.001, 0.025, 0.5, 0.95, 0.999])
        expect(chiSquareTail(quantile(p, dof), dof)).toBeCloseTo(1 - p, 9);
    }
    expect(quantile(0.95, 2)).toBeCloseTo(FACTOR95 ** 2, 9);
    expect(FACTOR95).toBeCloseTo(2.447747, 6);
  });
});
