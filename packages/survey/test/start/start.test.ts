import { distance, randomFrom } from '@fayplate/core';
import type { Reading } from '@fayplate/job';
import { describe, expect, test } from 'vitest';
import { systemOf } from '../../src/adjust/system.js';
import { clockMisfit } from '../../src/start/misfit.js';
import { networkOf } from '../../src/network/network.js';
import { search } from '../../src/start/search.js';
import { levenbergMarquardt } from '../../src/start/levenberg-marquardt.js';
import { startPositions } from '../../src/start/start.js';
import { families, shop } from './shops.js';

/** χ² at the foot of the slope from the start found, and from the truth. */
const ends = (
  seed: number,
  options: Parameters<typeof shop>[1],
): { readonly found: number; readonly fromTruth: number } => {
  const { network, truth } = shop(seed, options);
  const equations = systemOf(network);
  const [start] = startPositions(network);
  return {
    found: levenbergMarquardt(equations, start?.values ?? truth, 60, 1e-10).chi2,
    fromTruth: levenbergMarquardt(equations, truth, 60, 1e-10).chi2,
  };
};

const aReading: Reading = {
  id: '',
  text: '',
  kind: 'centres',
  features: [],
  value: 0,
  point: null,
  plusMinus: 0.05,
  instrument: 'caliper',
  aside: false,
  note: null,
  unit: 'mm',
  place: { line: 1, column: 1 },
};

describe('a start is found without being told', () => {
  test.each(families)('%s: no higher than from the truth, clocks right, loose or none', (family) => {
    for (let seed = 1; seed <= 14; seed++) {
      const { found, fromTruth } = ends(seed, { family, count: 3 + ((seed * 5) % 12) });
      expect([seed, found <= fromTruth + 1e-6 * (1 + fromTruth)]).toEqual([seed, true]);
    }
  });

  test('two parts that lean on one reading are turned over together', () => {
    // Either alone strains that reading; both together fit about as well as the truth, but not quite.
    for (const [seed, clocks] of [
      [118, 'loose'],
      [255, 'none'],
    ] as const) {
      const { found, fromTruth } = ends(seed, { clocks });
      expect([seed, found <= fromTruth + 1e-6 * (1 + fromTruth)]).toEqual([seed, true]);
    }
  });

  test('readings that fit nowhere do not keep the search: it ends where beginnings meet', () => {
    for (const count of [6, 10, 14]) {
      const s = shop(count, { family: 'random pairs', count, clocks: 'right' });
      const at = [...s.network.unknowns.features.values()].map((f) => ({
        id: f.id,
        p: { x: s.truth[f.x] ?? 0, y: s.truth[f.y] ?? 0 },
      }));
      const random = randomFrom(count);
      const readings = at.flatMap((a, i) =>
        at.slice(i + 1).map((b): Reading => {
          const off = 20 * 0.05 * random.normal();
          return { ...aReading, id: `${a.id} ${b.id}`, features: [a.id, b.id], value: distance(a.p, b.p) + off };
        }),
      );
      const network = networkOf({ face: { ...s.face, readings }, instruments: s.instruments });
      const told: number[] = [];
      const { chi2, tries } = search(network, (done, of) => void told.push(done / of));
      // Whoever waits is told how far it has come.
      expect(told.length).toBeGreaterThan(10);
      expect(told).toEqual([...told].sort((a, b) => a - b));
      expect(told.every((share) => share > 0 && share < 1)).toBe(true);
      expect(chi2).toBeLessThanOrEqual(levenbergMarquardt(systemOf(network), s.truth, 60, 1e-10).chi2 * (1 + 1e-6));
      expect(chi2).toBeGreaterThan(10 * readings.length);
      expect(tries).toBeLessThan(150);
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
      const end = levenbergMarquardt(equations, start?.values ?? truth, 60, 1e-10).x;
      expect(clockMisfit(network, end)).toBeLessThanOrEqual(clockMisfit(network, truth) + 0.01);
    }
  });
});
