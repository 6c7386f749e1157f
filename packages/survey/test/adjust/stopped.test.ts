import { randomFrom } from '@fayplate/core';
import { describe, expect, test } from 'vitest';
import { settle } from '../../src/settle.js';
import { answer } from '../../src/locate.js';
import { locateFace } from '../../src/index.js';
import { networkOf } from '../../src/network/network.js';
import { ringShop } from '../shops.js';
import { simulate } from '../simulate.js';
import { feature, hours, reading, survey } from '../support.js';

describe('why it stopped', () => {
  const random = randomFrom(3);
  const shop = ringShop(5, random);
  const { survey: job, start } = simulate(shop.template, shop.truth, random);
  const settled = settle(networkOf(job), [{ values: start, from: 'the truth' }]);

  test('a minimum says so', () => {
    const f = answer(settled);
    expect(f.stopped.converged).toBe(true);
    expect(['at rest', 'last digit']).toContain(f.stopped.why);
    expect(f.features.size).toBe(6);
  });

  test('what has not converged is no answer: a state, and no places', () => {
    const f = answer({
      ...settled,
      adjustment: {
        ...settled.adjustment,
        stopped: { converged: false, why: 'iterations spent', iterations: 300 },
      },
    });
    expect(f.stopped).toEqual({ converged: false, why: 'iterations spent', iterations: 300 });
    expect(f.features.size).toBe(0);
    expect(f.suspects).toEqual([]);
    expect(() => f.covarianceOf(['P1'])).toThrow(RangeError);
  });

  test('a start on a ridge slides off it: three holes in line that are not', () => {
    const s = survey(
      [feature('A'), feature('B', { clock: hours(12) }), feature('C', { clock: hours(12) })],
      [reading('centres A B', 50, 0.1), reading('centres B C', 50, 0.1), reading('centres A C', 60, 0.1)],
      { centre: 'A', up: 'B' },
    );
    const inLine = Float64Array.from([0, 0, 0, 40, 0, 80]);
    const f = answer(settle(networkOf(s), [{ values: inLine, from: 'a straight line' }]));
    expect(f.stopped.converged).toBe(true);
    expect(f.fit.chi2).toBeLessThan(1e-12);
    expect(Math.abs(f.features.get('C')?.x ?? 0)).toBeCloseTo(48, 6);
  });

  test.each([19.9, 20, 20.01, 20.05, 20.2])(
    'a wall of %d mm between a spigot and a bore that can leave ' +
      '20 at most: they come out concentric, and so not placed',
    (wall) => {
      const s = survey(
        [
          feature('S', { kind: 'spigot', diameter: { value: 40, plusMinus: 0.02 } }),
          feature('C', { kind: 'bore', diameter: { value: 80, plusMinus: 0.02 } }),
          feature('A', { clock: hours(12) }),
          feature('B', { clock: hours(4) }),
        ],
        [
          reading('centres A S', 30, 0.1),
          reading('centres B S', 30, 0.1),
          reading('centres A B', 40, 0.1),
          reading('wall S C', wall, 0.1),
          reading('wall S C', wall + 0.01, 0.1),
        ],
        { centre: 'S', up: 'A' },
      );
      const f = locateFace(s, { next: false });
      expect(f.stopped.converged).toBe(true);
      expect(f.undetermined).toEqual(['C']);
      expect(f.fit.sumRedundancy).toBeCloseTo(f.fit.dof, 6);
    },
  );
});
