import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  apply,
  circumcircle,
  distance,
  fitCircle,
  intersectCircles,
  polar,
  register,
  rotation,
  smallestCircle,
  type Motion,
  type Point,
} from '../../src/index.js';
import { aPoint, aTurn, seeded, within } from '../support.js';

const ring = fc.record({
  centre: aPoint,
  radius: within(5, 400),
  at: fc.array(within(0, 2 * Math.PI), { minLength: 4, maxLength: 12 }),
});
const pointsOf = (r: { centre: Point; radius: number; at: readonly number[] }): Point[] =>
  [0.1, 2.2, 4.3, ...r.at].map((a) => {
    const p = polar(r.radius, a);
    return { x: r.centre.x + p.x, y: r.centre.y + p.y };
  });

describe('circle fits', () => {
  test('a centre is recovered from noise-free points to 1e-9', () => {
    fc.assert(
      fc.property(ring, (r) => {
        const c = fitCircle(pointsOf(r));
        expect(c).not.toBeNull();
        expect(distance(c?.centre ?? (r.at[0] as never), r.centre)).toBeLessThan(1e-9);
        expect(Math.abs((c?.radius ?? 0) - r.radius)).toBeLessThan(1e-9);
      }),
      seeded,
    );
  });

  test('turning the points turns every fit with them', () => {
    fc.assert(
      fc.property(ring, fc.array(within(-0.5, 0.5), { minLength: 40, maxLength: 40 }), aTurn, (r, noise, turn) => {
        const rough = pointsOf(r).map((p, i) => ({ x: p.x + (noise[2 * i] ?? 0), y: p.y + (noise[2 * i + 1] ?? 0) }));
        const m = rotation(turn);
        for (const fit of [fitCircle, smallestCircle]) {
          const before = fit(rough);
          const after = fit(rough.map((p) => apply(m, p)));
          if (before === null || after === null) throw new Error('no circle');
          expect(distance(apply(m, before.centre), after.centre)).toBeLessThan(1e-6);
          expect(Math.abs(before.radius - after.radius)).toBeLessThan(1e-6);
        }
      }),
      seeded,
    );
  });

  test('fewer than three points or a line has no circle', () => {
    expect(
      fitCircle([
        { x: 0, y: 0 },
        { x: 1, y: 0 },
      ]),
    ).toBeNull();
    expect(
      fitCircle([
        { x: 0, y: 0 },
        { x: 1, y: 1 },
        { x: 2, y: 2 },
      ]),
    ).toBeNull();
    expect(circumcircle({ x: 0, y: 0 }, { x: 1, y: 1 }, { x: 2, y: 2 })).toBeNull();
  });

  test('two circles cross where both are satisfied, the first point to the left', () => {
    fc.assert(
      fc.property(aPoint, aPoint, aPoint, (a, b, p) => {
        fc.pre(distance(a, b) > 1 && distance(a, p) > 1 && distance(b, p) > 1);
        const both = intersectCircles({ centre: a, radius: distance(a, p) }, { centre: b, radius: distance(b, p) });
        fc.pre(both !== null);
        const near = Math.min(...(both ?? []).map((q) => distance(q, p)));
        expect(near).toBeLessThan(1e-4);
      }),
      seeded,
    );
  });

  test('the smallest circle holds every point and touches two or more', () => {
    fc.assert(
      fc.property(fc.array(aPoint, { minLength: 2, maxLength: 20 }), (points) => {
        const c = smallestCircle(points);
        if (c === null) throw new Error('no circle');
        const gaps = points.map((p) => c.radius - distance(c.centre, p));
        expect(Math.min(...gaps)).toBeGreaterThan(-1e-7);
        expect(gaps.filter((g) => g < 1e-6).length).toBeGreaterThanOrEqual(
          Math.min(2, new Set(points.map((p) => `${p.x},${p.y}`)).size),
        );
      }),
      seeded,
    );
  });
});

describe('registration', () => {
  test('a moved pattern is laid back exactly', () => {
    fc.assert(
      fc.property(fc.array(aPoint, { minLength: 2, maxLength: 12 }), aTurn, aPoint, (points, turn, shift) => {
        fc.pre(points.some((p) => distance(p, points[0] ?? p) > 1));
        const m: Motion = { turn, shift, mirrored: false };
        const found = register(
          points,
          points.map((p) => apply(m, p)),
        );
        for (const p of points) expect(distance(apply(found, p), apply(m, p))).toBeLessThan(1e-8);
      }),
      seeded,
    );
  });

  test('a mirrored pattern is not laid on: no reflection is ever taken', () => {
    const l: Point[] = [
      { x: 0, y: 0 },
      { x: 3, y: 0 },
      { x: 0, y: 1 },
    ];
    const m = register(
      l,
      l.map((p) => ({ x: -p.x, y: p.y })),
    );
    expect(m.mirrored).toBe(false);
    expect(Math.max(...l.map((p) => distance(apply(m, p), { x: -p.x, y: p.y })))).toBeGreaterThan(0.3);
  });
});
