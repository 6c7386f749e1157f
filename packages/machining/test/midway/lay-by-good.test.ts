import { distance } from '@fayplate/core';
import type { Pattern } from '@fayplate/survey';
import { describe, expect, test } from 'vitest';
import { layByGood, nearOf } from '../../src/midway/lay-by-good.js';
import { layOn } from '../../src/prove/lay.js';

const square = new Map([
  ['H1', { x: -50, y: -50 }],
  ['H2', { x: 50, y: -50 }],
  ['H3', { x: 50, y: 50 }],
  ['H4', { x: -50, y: 50 }],
]);

/**
 * The square with its last corner 2 mm too far right, turned by 30° and shifted: where the readings' own frame may lie.
 */
const pattern = (out: number): Pattern => {
  const places = [...square].map(([id, p]) => (id === 'H4' ? { x: p.x + out, y: p.y } : p));
  const [c, s] = [Math.cos(Math.PI / 6), Math.sin(Math.PI / 6)];
  return {
    ids: [...square.keys()],
    points: places.map((p) => ({ x: 200 + c * p.x - s * p.y, y: -30 + s * p.x + c * p.y })),
    radii: places.map(() => null),
    covariance: Array.from({ length: 8 }, (_, i) => Array.from({ length: 8 }, (_, j) => (i === j ? 1e-6 : 0))),
  };
};

describe('a drilled pattern with one hole out', () => {
  test('is laid by the three that agree: they lie on the drawing, the fourth 2 mm off', () => {
    const { laid, good, sure } = layByGood(pattern(2), square, 0.2);
    expect(good).toEqual(['H1', 'H2', 'H3']);
    expect(sure).toBe(true);
    const off = laid.points.map((p, i) => distance(p, square.get(laid.ids[i] ?? '') ?? p));
    expect(off[0]).toBeLessThan(1e-9);
    expect(off[2]).toBeLessThan(1e-9);
    expect(off[3]).toBeCloseTo(2, 9);
  });

  // A shift of 2/4 = 0.5 mm, and a turn of Σ r × e / Σ r² = −50 · 2 / (4 · 5000) = −0.005: at H1 (−0.5, 0) − (−0.25,
  // 0.25), of length √0.125.
  test('by least squares alone even the first corner would lie 0.354 mm off', () => {
    const laid = layOn(pattern(2), square);
    expect(distance(laid.points[0] ?? { x: 0, y: 0 }, { x: -50, y: -50 })).toBeCloseTo(Math.sqrt(0.125), 2);
  });

  test('two holes whose distance is wrong do not say which of them is', () => {
    const two = pattern(2);
    const pair: Pattern = { ...two, ids: ['H3', 'H4'], points: two.points.slice(2), radii: [null, null] };
    expect(layByGood(pair, square, 0.2).sure).toBe(false);
  });

  test('how near is near: one and a half times the drilling, no less than 0.2 and no more than 0.75 mm', () =>
    expect([0.05, 0.3, 2].map(nearOf)).toEqual([0.2, 0.3 * 1.5, 0.75]));
});
