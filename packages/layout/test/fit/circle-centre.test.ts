import { type Point, polar, randomFrom } from '@fayplate/core';
import { describe, expect, test } from 'vitest';
import { centreCovariance } from '../../src/used.js';

const on = (turns: readonly number[], radius: number): readonly Point[] => turns.map((t) => polar(radius, t));
const even = (n: number): readonly number[] => Array.from({ length: n }, (_, i) => (2 * Math.PI * i) / n);
const alike = (n: number, sigma: number): readonly (readonly number[])[] =>
  Array.from({ length: 2 * n }, (_, i) => Array.from({ length: 2 * n }, (__, j) => (i === j ? sigma ** 2 : 0)));

describe('how well a circle’s centre is known', () => {
  test('n places evenly round it: σ √(2 / n) by how far out they lie alone, σ / √n by their divisions as well', () => {
    // The variance of a mean, and that of the radial fit Σ cos² = n / 2 (textbook of least squares).
    const free = centreCovariance(on(even(8), 50), { x: 0, y: 0 }, alike(8, 0.1), false);
    const divided = centreCovariance(on(even(8), 50), { x: 0, y: 0 }, alike(8, 0.1), true);
    expect(free?.[0]?.[0]).toBeCloseTo(0.01 * (2 / 8), 12);
    expect(divided?.[1]?.[1]).toBeCloseTo(0.01 / 8, 12);
    expect(divided?.[0]?.[1]).toBeCloseTo(0, 12);
  });

  test('places on a short arc fix it badly, across the arc worst of all; two on an undivided circle not at all', () => {
    const arc = centreCovariance(on([-0.2, 0, 0.2], 50), { x: 0, y: 0 }, alike(3, 0.1), false);
    expect(arc?.[0]?.[0] ?? 0).toBeGreaterThan(100 * 0.01);
    expect(arc?.[0]?.[0] ?? 0).toBeGreaterThan(10 * (arc?.[1]?.[1] ?? 0));
    expect(centreCovariance(on([0, 1], 50), { x: 0, y: 0 }, alike(2, 0.1), false)).toBeNull();
  });

  test('it is the spread of centres fitted to places with those errors', () => {
    const random = randomFrom(1915);
    const places = on([0.1, 1.2, 2.9, 4.4], 40);
    const told = centreCovariance(places, { x: 0, y: 0 }, alike(4, 0.05), true);
    const runs = 4000;
    let [xx, yy] = [0, 0];
    for (let k = 0; k < runs; k++) {
      // With the turn and the size free a divided circle is a similarity: δc = Σ wᵢ δpᵢ, wᵢ = (n − S ūᵢ) / (n² − |S|²),
      // S = Σ uᵢ.
      const u = [0.1, 1.2, 2.9, 4.4].map((t) => ({ x: Math.cos(t), y: Math.sin(t) }));
      const s = u.reduce((a, b) => ({ x: a.x + b.x, y: a.y + b.y }));
      const det = 16 - s.x ** 2 - s.y ** 2;
      let [x, y] = [0, 0];
      for (const v of u) {
        const w = { x: (4 - (s.x * v.x + s.y * v.y)) / det, y: -(s.y * v.x - s.x * v.y) / det };
        const [a, b] = [0.05 * random.normal(), 0.05 * random.normal()];
        x += w.x * a - w.y * b;
        y += w.x * b + w.y * a;
      }
      xx += (x * x) / runs;
      yy += (y * y) / runs;
    }
    expect(Math.abs((told?.[0]?.[0] ?? 0) / xx - 1)).toBeLessThan(0.1);
    expect(Math.abs((told?.[1]?.[1] ?? 0) / yy - 1)).toBeLessThan(0.1);
  });
});
