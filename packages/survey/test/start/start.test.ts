import { describe, expect, test } from 'vitest';
import { systemOf } from '../../src/adjust/system.js';
import { clockMisfit } from '../../src/start/misfit.js';
import { slide } from '../../src/start/slide.js';
import { startPositions } from '../../src/start/start.js';
import { families, shop } from './shops.js';

/** χ² at the foot of the slope from the start found, and from the truth. */
const ends = (seed: number, options: Parameters<typeof shop>[1]): { readonly found: number; readonly fromTruth: number } => {
  const { network, truth } = shop(seed, options);
  const equations = systemOf(network);
  const [start] = startPositions(network);
  return {
    found: slide(equations, start?.values ?? truth, 60, 1e-10).chi2,
    fromTruth: slide(equations, truth, 60, 1e-10).chi2,
  };
};

describe('a start is found without being told', () => {
  test.each(families)('%s: no higher than from the truth, clocks right, loose or none', (family) => {
    for (let seed = 1; seed <= 14; seed++) {
      const { found, fromTruth } = ends(seed, { family, count: 3 + ((seed * 5) % 12) });
      expect([seed, found <= fromTruth + 1e-6 * (1 + fromTruth)]).toEqual([seed, true]);
    }
  });

  test('the same face gives the same start', () => {
    const { network } = shop(4, { family: 'random pairs', count: 12, clocks: 'none' });
    expect(startPositions(network)).toEqual(startPositions(network));
  });

  test('what the readings leave on either side of a hinge lies where the clocks say', () => {
    for (let seed = 1; seed <= 12; seed++) {
      const { network, truth } = shop(seed, { family: 'built up', count: 7, clocks: 'right' });
      const [start] = startPositions(network);
      const equations = systemOf(network);
      const end = slide(equations, start?.values ?? truth, 60, 1e-10).x;
      expect(clockMisfit(network, end)).toBeLessThanOrEqual(clockMisfit(network, truth) + 0.01);
    }
  });
});
