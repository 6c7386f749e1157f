import type { Point } from '@fayplate/core';
import { describe, expect, test } from 'vitest';
import { freed } from '../../src/prove/lay.js';
import { allowedFor, provedHoles } from '../../src/prove/position.js';
import { divisionsOf } from '../../src/prove/mistake.js';
import { hole, simple } from '../fixture.js';
import { drilledJob } from './drilled.js';

describe('what a hole is allowed', () => {
  const job = drilledJob([]);
  const tappedMate = {
    ...job,
    faces: job.faces.map((f) => ({
      ...f,
      features: f.features.map((g) => (g.id === 'M1' ? { ...g, thread: 'M6', diameter: null } : g)),
    })),
  };
  const six = (feature: string) => hole('H1', 0, 0, { feature, diameter: 6.44, limits: [6.44, 6.6], fastener: 6 });

  // ANSI Y14.5M appendix B: F = 6 at its largest, H = 6.44 at its least. Floating T = H − F = 0.44 each part (from
  // memory); fixed T = (H − F) / 2 = 0.22 each part (read).
  test('floating and fixed fasteners as in the standard’s worked example', () => {
    expect(allowedFor(six('motor.M2'), job)).toBeCloseTo(0.44, 9);
    expect(allowedFor(six('motor.M1'), tappedMate)).toBeCloseTo(0.22, 9);
  });

  // Formula with a read fragment: F = 10, T = 0.5: floating H = 10.5, fixed H = 11.
  test('F 10, T 0.5', () => {
    expect(allowedFor(hole('H1', 0, 0, { feature: 'motor.M2', diameter: 10.5, fastener: 10 }), job)).toBeCloseTo(
      0.5,
      9,
    );
    expect(allowedFor(hole('H1', 0, 0, { feature: 'motor.M1', diameter: 11, fastener: 10 }), tappedMate)).toBeCloseTo(
      0.5,
      9,
    );
  });

  test('a dowel or a tapped hole has no clearance of its own to spend', () => {
    expect(allowedFor(hole('H1', 0, 0, { as: 'dowel', diameter: 6, fastener: 6 }), job)).toBeNull();
    expect(allowedFor(hole('H1', 0, 0, { as: 'tapped', diameter: 8.5, fastener: null }), job)).toBeNull();
  });
});

// ASME Y14.5: the position of a hole is the diameter of the zone that holds its axis, twice the distance off.
test.each([
  [0.21, true],
  [0.23, false],
])('by hand: 0.3 and 0.4 parts of %d mm off, where 0.44 is allowed', (off, ok) => {
  const at = { x: 30 + 0.6 * off, y: -10 - 0.8 * off };
  const laid = {
    ids: ['H1'],
    points: [at],
    radii: [null],
    covariance: [
      [0, 0],
      [0, 0],
    ],
  };
  const [one] = provedHoles(
    laid,
    simple([hole('H1', 30, -10, { feature: 'motor.M2', diameter: 6.44, limits: [6.44, 6.6], fastener: 6 })]),
    drilledJob([]),
  );
  expect(one).toMatchObject({
    id: 'H1',
    dx: expect.closeTo(0.6 * off, 9),
    dy: expect.closeTo(-0.8 * off, 9),
    position: expect.closeTo(2 * off, 9),
    allowed: expect.closeTo(0.44, 9),
    ok,
  });
});

describe('laying', () => {
  test('a shift or turn of the whole has no variance left, a stretch keeps its own', () => {
    const places: readonly Point[] = [
      { x: 10, y: 0 },
      { x: 0, y: 8 },
      { x: -7, y: -3 },
      { x: 2, y: -9 },
    ];
    const of = (v: readonly number[]) => v.map((a) => v.map((b) => a * b));
    const middle = { x: 1.25, y: -1 };
    const size = (c: readonly (readonly number[])[]): number => c.reduce((s, row, i) => s + Math.abs(row[i]!), 0);
    expect(size(freed(of(places.flatMap(() => [1, 2])), places))).toBeLessThan(1e-12);
    expect(size(freed(of(places.flatMap((p) => [-p.y, p.x])), places))).toBeLessThan(1e-9);
    const stretch = places.flatMap((p) => [p.x - middle.x, p.y - middle.y]);
    expect(size(freed(of(stretch), places))).toBeCloseTo(size(of(stretch)), 6);
  });
});

describe('divisions', () => {
  const on = (n: number, taken: readonly number[]) =>
    taken.map((k) => ({
      x: 50 * Math.cos((2 * Math.PI * k) / n + 0.4),
      y: 50 * Math.sin((2 * Math.PI * k) / n + 0.4),
    }));

  test.each([
    [4, [0, 1, 2, 3], 4],
    [12, [0, 1, 4, 6], 12],
    [12, [0, 4, 8], 3],
    [7, [0, 2, 3], 7],
  ])('%i divisions, places %j: %i', (n, taken, wanted) => {
    expect(divisionsOf(on(n, taken), { x: 0, y: 0 })).toBe(wanted);
  });

  test('none in three odd places', () => {
    expect(
      divisionsOf(
        [
          { x: 50, y: 0 },
          { x: 50 * Math.cos(1), y: 50 * Math.sin(1) },
          { x: 50 * Math.cos(2.7131), y: 50 * Math.sin(2.7131) },
        ],
        { x: 0, y: 0 },
      ),
    ).toBeNull();
  });
});
