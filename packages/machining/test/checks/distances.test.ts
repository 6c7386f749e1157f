import { type Point, distance, polar, randomFrom } from '@fayplate/core';
import { describe, expect, test } from 'vitest';
import { type Pair, rigidPairs } from '../../src/checks/rigid.js';

/**
 * Rank of the distances' derivatives, by Gaussian elimination with full pivoting: written apart from the room's own
 * Gram–Schmidt.
 */
const rank = (places: readonly Point[], pairs: readonly Pair[]): number => {
  const m = pairs.map(([i, j]) => {
    const row = Array.from({ length: 2 * places.length }, () => 0);
    const [a, b] = [places[i]!, places[j]!];
    const d = distance(a, b);
    [row[2 * i], row[2 * i + 1], row[2 * j], row[2 * j + 1]] = [
      (a.x - b.x) / d,
      (a.y - b.y) / d,
      (b.x - a.x) / d,
      (b.y - a.y) / d,
    ];
    return row;
  });
  let r = 0;
  for (;;) {
    let best: readonly [number, number, number] = [0, r, 0];
    for (let i = r; i < m.length; i++)
      for (const [j, v] of m[i]!.entries()) if (Math.abs(v) > best[0]) best = [Math.abs(v), i, j];
    if (best[0] < 1e-7) return r;
    const [, pr, pc] = best;
    [m[r], m[pr]] = [m[pr]!, m[r]!];
    for (let i = r + 1; i < m.length; i++) {
      const f = m[i]![pc]! / m[r]![pc]!;
      m[i] = m[i]!.map((v, k) => v - f * m[r]![k]!);
    }
    r++;
  }
};
const ring = (n: number): readonly Point[] => Array.from({ length: n }, (_, i) => polar(80, (2 * Math.PI * i) / n));
const shop = (n: number, seed: number): readonly Point[] => {
  const random = randomFrom(seed);
  return Array.from({ length: n }, () => ({ x: random.uniform() * 200, y: random.uniform() * 200 }));
};

describe('check distances', () => {
  test.each([
    ['two holes', ring(2)],
    ['three holes', ring(3)],
    ['a square', ring(4)],
    ['twelve equal divisions and their centre', [...ring(12), { x: 0, y: 0 }]],
    ['scattered', shop(9, 3)],
    ['many', shop(50, 4)],
    ['three in line and one off it', [0, 50, 100].map((x) => ({ x, y: 0 })).concat({ x: 40, y: 30 })],
  ])('%s: 2n − 3 of them, and they fix every place', (_, places) => {
    const pairs = rigidPairs(places);
    expect(pairs).toHaveLength(2 * places.length - 3);
    expect(rank(places, pairs)).toBe(2 * places.length - 3);
    const spans = pairs.map(([i, j]) => distance(places[i]!, places[j]!));
    expect(spans).toEqual(spans.toSorted((a, b) => b - a));
  });

  test('one fewer leaves something loose', () => {
    const places = ring(6);
    const pairs = rigidPairs(places);
    for (const [k] of pairs.entries()) expect(rank(places, pairs.toSpliced(k, 1))).toBe(2 * places.length - 4);
  });

  test('the farthest pair is always among them', () => {
    const places = shop(8, 9);
    const all = places.flatMap((a, i) => places.slice(i + 1).map((b) => distance(a, b)));
    const [i, j] = rigidPairs(places)[0]!;
    expect(distance(places[i]!, places[j]!)).toBe(Math.max(...all));
  });

  test('places in one line are not said to be fixed sideways', () => {
    expect(
      rank(
        [0, 1, 2].map((x) => ({ x, y: 0 })),
        rigidPairs([0, 1, 2].map((x) => ({ x, y: 0 }))),
      ),
    ).toBeLessThan(3);
  });
});
