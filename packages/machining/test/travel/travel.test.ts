import { type Point, distance, polar, randomFrom } from '@fayplate/core';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  type Approach,
  leg,
  orderOfTools,
  orderOfTravel,
  shortestWay,
  viaPoint,
  wayLength,
} from '../../src/travel/order.js';
import { shortWay } from '../../src/travel/improve.js';
import { berlin52, lengthOf, roundCosts, shortestRound } from './berlin52.js';

const costs = (places: readonly Point[], approach: Approach | null = null): readonly (readonly number[])[] =>
  places.map((a) => places.map((b) => leg(a, b, approach)));
const laid = (places: readonly Point[], way: readonly number[]): readonly Point[] => way.map((i) => places[i]!);
const scattered = (n: number, seed: number): readonly Point[] => {
  const random = randomFrom(seed);
  return Array.from({ length: n }, () => ({ x: random.uniform() * 300, y: random.uniform() * 200 }));
};
const permutations = function* (items: readonly number[]): Generator<readonly number[]> {
  if (items.length < 2) yield items;
  else
    for (const [i, item] of items.entries())
      for (const rest of permutations([...items.slice(0, i), ...items.slice(i + 1)])) yield [item, ...rest];
};
const bruteForce = (places: readonly Point[], approach: Approach | null): number => {
  let best = Infinity;
  for (const way of permutations(places.map((_, i) => i)))
    best = Math.min(best, wayLength(laid(places, way), approach));
  return best;
};
const fromLowerLeft: Approach = { x: -1, y: -1, past: 2 };

describe('order of travel', () => {
  test.each([1, 2, 3, 4, 5, 6, 7])(
    'seed %i: seven holes, no order of all 5040 is shorter, with slack taken up or not',
    (seed) => {
      const places = scattered(7, seed);
      for (const approach of [null, fromLowerLeft]) {
        const way = orderOfTravel(places, approach);
        expect(new Set(way)).toEqual(new Set([0, 1, 2, 3, 4, 5, 6]));
        expect(wayLength(laid(places, way), approach)).toBeCloseTo(bruteForce(places, approach), 9);
      }
    },
  );

  test.each([13, 14, 15])('%i holes: within a twentieth of the exact answer', (n) => {
    for (let seed = 1; seed <= 2; seed++) {
      for (const approach of [null, fromLowerLeft]) {
        const places = scattered(n, 100 * n + seed);
        const exact = wayLength(laid(places, shortestWay(costs(places, approach))), approach);
        const found = wayLength(laid(places, orderOfTravel(places, approach)), approach);
        expect(found).toBeGreaterThan(exact - 1e-6);
        expect(found / exact).toBeLessThan(1.05);
      }
    }
  });

  // Where all n − 1 legs are as short as the least distance between any two holes, no way can be shorter: known optima
  // at any size.
  test.each([
    [
      'a circle of 60',
      Array.from({ length: 60 }, (_, i) => polar(100, (2 * Math.PI * ((i * 37) % 60)) / 60)),
      59 * 200 * Math.sin(Math.PI / 60),
    ],
    [
      'a grid of 8 × 9',
      Array.from({ length: 72 }, (_, i) => ({
        x: 10 * (((i * 29) % 72) % 8),
        y: 10 * Math.floor(((i * 29) % 72) / 8),
      })),
      71 * 10,
    ],
  ])('%s: within a twentieth of its known shortest way', (_, places, shortest) => {
    const way = shortWay(costs(places));
    expect(new Set(way).size).toBe(places.length);
    expect(wayLength(laid(places, way), null) / shortest).toBeLessThan(1.05);
  });

  test('TSPLIB’s berlin52: within a twentieth of the published shortest round', () => {
    const round = roundCosts(berlin52);
    const way = shortWay(round);
    expect([way[0], way.at(-1), new Set(way).size]).toEqual([0, 52, 53]);
    expect(lengthOf(round, way)).toBeGreaterThanOrEqual(shortestRound);
    expect(lengthOf(round, way) / shortestRound).toBeLessThan(1.05);
  });

  test('a wrong order is seen to be longer', () => {
    const ring = Array.from({ length: 6 }, (_, i) => polar(50, (i * Math.PI) / 3));
    const way = orderOfTravel(ring, null);
    expect(wayLength(laid(ring, way), null)).toBeCloseTo(5 * 50, 9);
    expect(wayLength(laid(ring, [0, 3, 1, 4, 2, 5]), null)).toBeGreaterThan(400);
  });

  test('tools follow each other from the nearer end', () => {
    const row = [0, 10, 20, 30].map((x) => ({ x, y: 0 }));
    const [first, second] = orderOfTools([row, row], null);
    expect([first, second]).toEqual([[...(second ?? [])].reverse(), second]);
  });
});

describe('approach from one side', () => {
  test('every hole is reached by a last move away from the stated sides', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: -50, max: 50 }),
        fc.integer({ min: -50, max: 50 }),
        fc.constantFrom<-1 | 0 | 1>(-1, 0, 1),
        fc.constantFrom<-1 | 0 | 1>(-1, 0, 1),
        (x, y, sx, sy) => {
          const approach = { x: sx, y: sy, past: 2 };
          const from = { x: 0, y: 0 };
          const to = { x, y };
          const turn = viaPoint(from, to, approach) ?? from;
          for (const [axis, side] of [
            ['x', sx],
            ['y', sy],
          ] as const) {
            const last = to[axis] - turn[axis] || turn[axis] - from[axis]; // the last move in which this axis moves at all
            expect(side * last).toBeLessThanOrEqual(0);
          }
          expect(leg(from, to, approach)).toBeGreaterThanOrEqual(distance(from, to) - 1e-9);
        },
      ),
      { seed: 7, numRuns: 500 },
    );
  });

  test('the first hole is come to from the stated sides as well', () => {
    expect(viaPoint(null, { x: 5, y: 5 }, fromLowerLeft)).toEqual({ x: 3, y: 3 });
    expect(viaPoint(null, { x: 5, y: 5 }, { x: 1, y: 0, past: 2 })).toEqual({ x: 7, y: 5 });
  });
});
