import { type Point, distance, edgesOf, flatten, polar, signedArea } from '@fayplate/core';
import { describe, expect, test } from 'vitest';
import { outlineOfPieces } from '../../src/outline/stretches.js';

const around = (centre: Point, radius: number, from: number, to: number, n = 4): readonly Point[] =>
  Array.from({ length: n }, (_, i) => {
    const p = polar(radius, ((from + ((to - from) * i) / (n - 1)) * Math.PI) / 180);
    return { x: centre.x + p.x, y: centre.y + p.y };
  });

/** Two circles of 50 whose centres are 60 apart cross 40 off the line between them, since 30² + 40² = 50². */
const two = [
  { kind: 'arc', points: around({ x: -30, y: 0 }, 50, 80, 280) },
  { kind: 'arc', points: around({ x: 30, y: 0 }, 50, -100, 100) },
] as const;
const lens = 2 * (50 * 50 * Math.acos(0.6)) - 60 * 40;

describe('an outline of what was touched along it', () => {
  test('two arcs meet in hollow corners where their circles cross', () => {
    const made = outlineOfPieces(two);
    expect(signedArea(made?.path ?? { start: { x: 0, y: 0 }, edges: [], closed: true })).toBeCloseTo(
      2 * 2500 * Math.PI - lens,
      6,
    );
    const corners = edgesOf(made?.path ?? { start: { x: 0, y: 0 }, edges: [], closed: true }).map(([from]) => from);
    expect(corners.map((p) => [Math.round(p.x), Math.round(Math.abs(p.y))])).toEqual([
      [0, 40],
      [0, 40],
    ]);
  });

  test('the other way round, and begun elsewhere, it is the same', () => {
    const back = [...two].reverse().map((p) => ({ ...p, points: [...p.points].reverse() }));
    const area = (pieces: Parameters<typeof outlineOfPieces>[0]): number =>
      signedArea(outlineOfPieces(pieces)?.path ?? { start: { x: 0, y: 0 }, edges: [], closed: true });
    expect(area(back)).toBeCloseTo(area(two), 9);
    expect(area([two[1], two[0]])).toBeCloseTo(area(two), 9);
  });

  test('a waist between two lobes that is hollow itself', () => {
    const made = outlineOfPieces([
      { kind: 'lobe', centre: { x: -60, y: 0 }, radius: 25 },
      { kind: 'arc', points: around({ x: 0, y: -70 }, 55, 115, 65) },
      { kind: 'lobe', centre: { x: 60, y: 0 }, radius: 25 },
      {
        kind: 'line',
        points: [
          { x: 30, y: 20 },
          { x: 0, y: 20 },
          { x: -30, y: 20 },
        ],
      },
    ]);
    const arcs = (made?.path.edges ?? []).flatMap((e) => (e.kind === 'arc' ? [e.ccw] : []));
    expect(arcs.filter((ccw) => !ccw)).toHaveLength(1);
    for (const p of flatten(made?.path ?? { start: { x: 0, y: 0 }, edges: [], closed: true }, 0.01))
      expect(p.y).toBeLessThan(25.001);
    expect(made?.rests).toEqual([
      { along: 'arc', points: 4, departure: expect.closeTo(0, 6) },
      { along: 'line', points: 3, departure: expect.closeTo(0, 9) },
    ]);
  });

  test('a place that lies off is told by how far', () => {
    const [first, second] = two;
    const bent = { ...first, points: first.points.map((p, i) => (i === 1 ? { x: p.x - 0.4, y: p.y } : p)) };
    const [rest] = outlineOfPieces([bent, second])?.rests ?? [];
    expect(rest?.departure).toBeGreaterThan(0.02);
    expect(rest?.departure).toBeLessThan(0.4);
  });

  test('what does not close is no outline', () => {
    expect(outlineOfPieces([two[0]])).toBeNull();
    expect(
      outlineOfPieces([
        { kind: 'corner', at: { x: 0, y: 0 } },
        { kind: 'corner', at: { x: 10, y: 10 } },
        { kind: 'corner', at: { x: 10, y: 0 } },
        { kind: 'corner', at: { x: 0, y: 11 } },
      ]),
    ).toBeNull();
  });
});

describe('a base with three lobes', () => {
  test('the plate stands out by its margin all along it, waists and all', async () => {
    const { winch } = await import('./winch.js');
    const { plateFrom } = await import('../support/from-text.js');
    const margin = 3;
    const [plain, grown] = [plateFrom(winch.replace('margin: 3 mm', 'margin: 0')), plateFrom(winch)];
    const rim = flatten(plain.outline.path, 0.0003);
    const outer = flatten(grown.outline.path, 0.02);
    const off = outer.map((p) => Math.min(...rim.map((q) => distance(p, q))));
    expect(Math.max(...off)).toBeLessThan(margin + 0.03);
    expect(Math.min(...off)).toBeGreaterThan(margin - 0.03);
    expect(grown.outline.rests?.map((r) => r.points)).toEqual([3, 3, 3, 3, 3, 3]);
  });
});
