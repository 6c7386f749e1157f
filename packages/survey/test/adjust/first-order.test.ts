import { randomFrom } from '@fayplate/core';
import { describe, expect, test } from 'vitest';
import { adjust } from '../../src/adjust/adjust.js';
import { firstOrderAt, leavingOut, setsLeftOut } from '../../src/adjust/first-order.js';
import { systemOf } from '../../src/adjust/system.js';
import { networkOf } from '../../src/network/network.js';
import { startAt } from '../../src/start/start.js';
import { plannedFace, takenFace } from '../studies/explaining.js';

/** A face with its readings' own errors only, so that one step is as good as many. */
const sound = (seed: number) => {
  const random = randomFrom(seed);
  const planned = plannedFace(random);
  const network = networkOf(takenFace(planned, random, new Map()));
  const system = systemOf(network);
  return { network, system, all: adjust(network, startAt(network, planned.places).values, { system }) };
};

describe('what leaving readings out does to first order', () => {
  test.each([6, 17, 28, 39])('is what solving again without them does (seed %i)', (seed) => {
    const { network, system, all } = sound(seed);
    const first = firstOrderAt(system, all.values);
    expect(first.chi2).toBeCloseTo(all.chi2, 6);
    const checked = network.observations.flatMap((_, i) => ((all.redundancy[i] ?? 0) > 0.1 ? [i] : []));
    const random = randomFrom(seed + 1);
    for (let k = 0; k < 10; k++) {
      const wrong = [...new Set([0, 1].map(() => checked[random.below(checked.length)] ?? 0))].sort((a, b) => a - b);
      const left = leavingOut(first, wrong);
      if (left === null) continue;
      const active = network.observations.map((_, i) => !wrong.includes(i));
      const rest = adjust(network, all.values, { system, active, from: 'near' });
      expect(Math.abs(left.fall - (all.chi2 - rest.chi2))).toBeLessThan(0.02 * (1 + left.fall));
      for (const [n, i] of wrong.entries()) {
        const sigma = network.observations[i]?.sigma ?? 1;
        expect(Math.abs((left.errors[n] ?? 0) - (rest.residuals[i] ?? 0) / sigma)).toBeLessThan(0.05);
      }
    }
  });

  test('a pair whose errors make up for each other is told by nothing', () => {
    const first = {
      residuals: Float64Array.of(3, 3),
      chi2: 9,
      shows: [Float64Array.of(0.5, 0.5), Float64Array.of(0.5, 0.5)],
    };
    expect(leavingOut(first, [0, 1])).toBeNull();
    expect(leavingOut(first, [0])).toMatchObject({ errors: [6], variances: [2], fall: 18 });
  });

  test('every pair is weighed, each set once, the best first', () => {
    const { system, all } = sound(50);
    const first = firstOrderAt(system, all.values);
    const [ones = [], twos = []] = setsLeftOut(first, 1e6, (_, { fall }) => fall);
    const pairs = new Set(twos.map((s) => s.wrong.join(' ')));
    expect(pairs.size).toBe(twos.length);
    expect(twos.length).toBeGreaterThan(ones.length);
    expect(twos.length).toBeLessThanOrEqual((ones.length * (ones.length - 1)) / 2);
    expect(twos.map((s) => s.weight)).toEqual(twos.map((s) => s.weight).toSorted((a, b) => b - a));
    for (const { wrong } of twos) expect(wrong).toEqual(wrong.toSorted((a, b) => a - b));
  });
});
