import { randomFrom } from '@fayplate/core';
import { describe, expect, test } from 'vitest';
import { systemOf } from '../../src/adjust/system.js';
import { networkOf } from '../../src/network/network.js';
import { pointOf, sketchOf } from '../../src/start/sketch.js';
import { search } from '../../src/start/search.js';
import { levenbergMarquardt } from '../../src/start/levenberg-marquardt.js';
import { classicalScaling } from '../../src/start/classical-scaling.js';
import { feature, reading, survey } from '../support.js';
import { isGloballyRigid } from './global.js';
import { shop } from './shops.js';

const distances = (pairs: Readonly<Record<string, number>>) => {
  const ids = [...new Set(Object.keys(pairs).flatMap((p) => p.split(' ')))].sort();
  return networkOf(
    survey(
      ids.map((id) => feature(id)),
      Object.entries(pairs).map(([p, d]) => reading(`centres ${p}`, d, 0.1)),
    ),
  );
};

const rectangle = { 'A B': 40, 'B C': 30, 'C D': 40, 'D A': 30, 'A C': 50, 'B D': 50 };

describe('distances laid out flat', () => {
  test(
    'all of them between all holes give the shape back (Torgerson: ' +
      'exact where they are the distances of points in a plane)',
    () => {
      const network = distances(rectangle);
      const sketch = sketchOf(network);
      const x = classicalScaling(sketch, randomFrom(1));
      expect(x).not.toBeNull();
      const at = sketch.slots.map((_, f) => pointOf(sketch, x!, f));
      for (const [pair, d] of Object.entries(rectangle)) {
        const [a, b] = pair.split(' ').map((id) => at[sketch.slots.findIndex((s) => s.id === id)]!) as [
          { x: number; y: number },
          { x: number; y: number },
        ];
        expect(Math.hypot(a.x - b.x, a.y - b.y)).toBeCloseTo(d, 4);
      }
    },
  );

  test('a row of holes, each read to its neighbour alone, is laid out straight and to length', () => {
    const sketch = sketchOf(distances({ 'A B': 10, 'B C': 10, 'C D': 10, 'D E': 10 }));
    const x = classicalScaling(sketch, randomFrom(1))!;
    const [a, e] = [pointOf(sketch, x, 0), pointOf(sketch, x, 4)];
    expect(Math.hypot(a.x - e.x, a.y - e.y)).toBeCloseTo(40, 4);
  });

  test('two groups that no distance joins are not laid out', () => {
    expect(classicalScaling(sketchOf(distances({ 'A B': 10, 'C D': 10 })), randomFrom(1))).toBeNull();
  });

  test.each([22, 57])(
    'shop %i, of fifty holes read to their neighbours: the search ends where one from the truth does',
    (seed) => {
      const { network, truth } = shop(seed, { clocks: 'none' });
      const equations = systemOf(network);
      expect(network.unknowns.features.size).toBeGreaterThan(40);
      const fromTruth = levenbergMarquardt(equations, truth, 60, 1e-10).chi2;
      expect(levenbergMarquardt(equations, search(network).x, 60, 1e-10).chi2).toBeLessThanOrEqual(
        fromTruth + 1e-5 * (1 + fromTruth),
      );
    },
  );
});

describe('whether distances allow one shape only', () => {
  test('four holes by six distances: one shape; by five: a hinge on the diagonal', () => {
    expect(isGloballyRigid(distances(rectangle))).toBe(true);
    const { 'B D': _, ...hinged } = rectangle;
    expect(isGloballyRigid(distances(hinged))).toBe(false);
  });

  test('two fours that share two holes: either may be turned over about these', () => {
    expect(isGloballyRigid(distances({ ...rectangle, 'E F': 40, 'F A': 45, 'E B': 45, 'E A': 60, 'F B': 60 }))).toBe(
      false,
    );
    expect(
      isGloballyRigid(distances({ ...rectangle, 'E F': 40, 'F A': 45, 'E B': 45, 'E A': 60, 'F B': 60, 'F C': 80 })),
    ).toBe(true);
  });
});
