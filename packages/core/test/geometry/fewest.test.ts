import { describe, expect, test } from 'vitest';
import { type Point, fewestRuns, polar, randomFrom, add } from '../../src/index.js';

/** Places along shapes that were drawn of known lines and arcs: as few must come back. */
const line = (a: Point, b: Point, n: number): readonly Point[] =>
  Array.from({ length: n }, (_, i) => ({
    x: a.x + ((b.x - a.x) * (i + 0.5)) / n,
    y: a.y + ((b.y - a.y) * (i + 0.5)) / n,
  }));
const arc = (centre: Point, radius: number, from: number, to: number, n: number): readonly Point[] =>
  Array.from({ length: n }, (_, i) => add(centre, polar(radius, from + ((to - from) * (i + 0.5)) / n)));

const oblong = [
  ...line({ x: 0, y: 0 }, { x: 80, y: 0 }, 6),
  ...line({ x: 80, y: 0 }, { x: 80, y: 50 }, 5),
  ...line({ x: 80, y: 50 }, { x: 0, y: 50 }, 6),
  ...line({ x: 0, y: 50 }, { x: 0, y: 0 }, 5),
];
const stadium = [
  ...line({ x: -40, y: -25 }, { x: 40, y: -25 }, 6),
  ...arc({ x: 40, y: 0 }, 25, -Math.PI / 2, Math.PI / 2, 8),
  ...line({ x: 40, y: 25 }, { x: -40, y: 25 }, 6),
  ...arc({ x: -40, y: 0 }, 25, Math.PI / 2, (3 * Math.PI) / 2, 8),
];
/** Both long sides hollow: the waist of a casting. */
const waisted = [
  ...arc({ x: 0, y: -120 }, 100, Math.PI / 2 + 0.5, Math.PI / 2 - 0.5, 9),
  ...line({ x: 50, y: -30 }, { x: 50, y: 30 }, 5),
  ...arc({ x: 0, y: 120 }, 100, -Math.PI / 2 + 0.5, -Math.PI / 2 - 0.5, 9),
  ...line({ x: -50, y: 30 }, { x: -50, y: -30 }, 5),
];
const circle = arc({ x: 3, y: 4 }, 40, 0, 2 * Math.PI, 24);

const kinds = (points: readonly Point[], within: number, closed = true): string | null =>
  fewestRuns(points, within, closed)
    ?.map((r) => r.along)
    .sort()
    .join(' ') ?? null;

/** Each place off by up to `by` either way, in both axes. */
const shaken = (points: readonly Point[], by: number, seed: number): readonly Point[] => {
  const random = randomFrom(seed);
  return points.map((p) => ({ x: p.x + by * (2 * random.uniform() - 1), y: p.y + by * (2 * random.uniform() - 1) }));
};

describe('the fewest lines and arcs through places', () => {
  const shapes = [
    ['an oblong', oblong, 'line line line line'],
    ['a stadium', stadium, 'arc arc line line'],
    ['a waisted plate', waisted, 'arc arc line line'],
    ['a circle', circle, 'arc'],
  ] as const;

  test.each(shapes)('%s', (_, points, want) => expect(kinds(points, 0.05)).toBe(want));

  test.each(shapes)('%s, each place off by up to 0.1 mm either way', (_, points, want) => {
    for (const seed of [4, 19, 83]) expect(kinds(shaken(points, 0.1, seed), 0.25)).toBe(want);
  });

  test.each(shapes)('%s: where one begins to go round does not matter, nor which way', (_, points, want) => {
    const turned = [...points.slice(7), ...points.slice(0, 7)];
    expect([kinds(turned, 0.05), kinds(turned.toReversed(), 0.05)]).toEqual([want, want]);
  });

  test('every place lies on one run, in order, and within its ±', () => {
    const places = shaken(stadium, 0.1, 7);
    const runs = fewestRuns(places, 0.25, true) ?? [];
    const all = runs.flatMap((r) => r.points);
    const start = places.indexOf(all[0] ?? { x: 0, y: 0 });
    expect(all).toEqual([...places.slice(start), ...places.slice(0, start)]);
  });

  test('a ± that is too small needs more, one that is too large fewer', () => {
    const places = shaken(stadium, 0.1, 5);
    const count = (within: number): number => fewestRuns(places, within, true)?.length ?? Infinity;
    expect(count(0.02)).toBeGreaterThan(4);
    expect(count(0.25)).toBe(4);
    expect(count(10)).toBeLessThan(4);
  });

  test('open: a line and the arc that goes on from it', () =>
    expect(
      kinds(
        [...line({ x: -60, y: -25 }, { x: 0, y: -25 }, 6), ...arc({ x: 0, y: 0 }, 25, -Math.PI / 2, 1, 8)],
        0.05,
        false,
      ),
    ).toBe('arc line'));

  test('one place is no run', () => expect(fewestRuns([{ x: 1, y: 2 }], 1, true)).toBeNull());
});
