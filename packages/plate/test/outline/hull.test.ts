import { type Circle, distance, edgesOf, flatten, pathBox, signedArea } from '@fayplate/core';
import { Clipper, ClipperOffset, EndType, FillRule, JoinType } from 'clipper2-ts';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { hullOfCircles } from '../../src/outline/hull.js';
import { depthInside } from '../../src/outline/inside.js';
import { aPlace, seeded, within } from '../support/seeds.js';

const aCircle = fc.record({ centre: aPlace, radius: within(0.5, 40) });
const circles = fc.array(aCircle, { minLength: 1, maxLength: 12 });

/** Convex hull of points by the monotone chain: the circles as polygons of many sides. */
const chain = (points: readonly { x: number; y: number }[]): readonly { x: number; y: number }[] => {
  const sorted = [...points].sort((a, b) => a.x - b.x || a.y - b.y);
  const half = (list: typeof sorted) => {
    const out: { x: number; y: number }[] = [];
    for (const p of list) {
      for (;;) {
        const [a, b] = [out.at(-2), out.at(-1)];
        if (a === undefined || b === undefined || (b.x - a.x) * (p.y - a.y) - (b.y - a.y) * (p.x - a.x) > 0) break;
        out.pop();
      }
      out.push(p);
    }
    return out.slice(0, -1);
  };
  return [...half(sorted), ...half([...sorted].reverse())];
};
const areaOf = (p: readonly { x: number; y: number }[]): number =>
  p.reduce((s, a, i) => s + (a.x * (p[(i + 1) % p.length]?.y ?? 0) - a.y * (p[(i + 1) % p.length]?.x ?? 0)) / 2, 0);
const many = (c: Circle, n: number) =>
  Array.from({ length: n }, (_, k) => ({
    x: c.centre.x + c.radius * Math.cos((2 * Math.PI * k) / n),
    y: c.centre.y + c.radius * Math.sin((2 * Math.PI * k) / n),
  }));

describe('hull of circles', () => {
  test('holds every circle, is convex, and its area is that of the hull of many-sided polygons', () => {
    fc.assert(
      fc.property(circles, (cs) => {
        const hull = hullOfCircles(cs);
        for (const c of cs) expect(depthInside(c.centre, hull) - c.radius).toBeGreaterThan(-1e-7);
        expect(edgesOf(hull).every(([, edge]) => edge.kind === 'line' || edge.ccw)).toBe(true);
        const n = 2000;
        const rough = areaOf(chain(cs.flatMap((c) => many(c, n))));
        const exact = signedArea(hull);
        // A polygon of n sides in a circle of radius r is short of it by no more than r(1 − cos π/n) all round.
        expect(exact).toBeGreaterThan(rough - 1e-6);
        expect(exact).toBeLessThan(rough + 2 * Math.PI * 300 * 40 * (1 - Math.cos(Math.PI / n)) + 1e-6);
      }),
      seeded,
    );
  });

  test('every arc lies on one of the circles', () => {
    fc.assert(
      fc.property(circles, (cs) => {
        for (const [from, edge] of edgesOf(hullOfCircles(cs))) {
          if (edge.kind === 'line') continue;
          expect(
            cs.some(
              (c) => distance(c.centre, edge.centre) < 1e-9 && Math.abs(c.radius - distance(from, edge.centre)) < 1e-6,
            ),
          ).toBe(true);
        }
      }),
      seeded,
    );
  });

  test('is the offset of the hull of centres where all circles are alike (clipper2-ts, a general polygon library)', () => {
    fc.assert(
      fc.property(fc.array(aPlace, { minLength: 3, maxLength: 10 }), within(2, 30), (centres, radius) => {
        const core = chain(centres);
        fc.pre(areaOf(core) > 100);
        const unit = 1e5;
        const offset = new ClipperOffset(2, 1e-4 * unit);
        offset.addPath(
          core.map((p) => ({ x: Math.round(p.x * unit), y: Math.round(p.y * unit) })),
          JoinType.Round,
          EndType.Polygon,
        );
        const grown: { x: number; y: number }[][] = [];
        offset.execute(radius * unit, grown);
        const theirs = Math.abs(Clipper.area(Clipper.union(grown, FillRule.NonZero)[0] ?? [])) / unit ** 2;
        // Chords strayed by no more than 1e-4 mm over at most 2π·30 mm of arc, and centres were rounded to 1e-5 mm.
        expect(
          Math.abs(signedArea(hullOfCircles(centres.map((centre) => ({ centre, radius })))) - theirs),
        ).toBeLessThan(0.05);
      }),
      seeded,
    );
  });

  test('by hand: two circles of 10 set 30 apart are a stadium', () => {
    const path = hullOfCircles([
      { centre: { x: 0, y: 0 }, radius: 10 },
      { centre: { x: 30, y: 0 }, radius: 10 },
    ]);
    expect(signedArea(path)).toBeCloseTo(Math.PI * 100 + 600, 9);
    expect(pathBox(path)).toEqual({ left: -10, right: 40, bottom: -10, top: 10 });
  });

  test('circles in line, twice over and within each other change nothing', () => {
    const line = [0, 10, 20, 30].map((x) => ({ centre: { x, y: 5 }, radius: 10 }));
    const twice = [...line, ...line, { centre: { x: 12, y: 5 }, radius: 3 }];
    expect(signedArea(hullOfCircles(twice))).toBeCloseTo(Math.PI * 100 + 600, 9);
    expect(signedArea(hullOfCircles(twice.reverse()))).toBeCloseTo(Math.PI * 100 + 600, 9);
    expect(() => hullOfCircles([])).toThrow(RangeError);
  });
});

describe('depth inside a path', () => {
  test('by hand: from the middle of a circle that is nearly the whole hull', () => {
    // A circle of 0.2 set 40 out stands 0.2 beyond one of 40, whose arc goes on round all the rest.
    const nearlyRound = hullOfCircles([
      { centre: { x: 0, y: 0 }, radius: 40 },
      { centre: { x: 40, y: 0 }, radius: 0.2 },
    ]);
    expect(depthInside({ x: 0, y: 0 }, nearlyRound)).toBeCloseTo(40, 9);
    expect(depthInside({ x: 40, y: 0 }, nearlyRound)).toBeCloseTo(0.2, 9);
    expect(depthInside({ x: 0, y: 41 }, nearlyRound)).toBeCloseTo(-1, 9);
  });

  test('is the distance from its nearest point, signed by a ray that crosses its flattened form', () => {
    fc.assert(
      fc.property(circles, aPlace, (cs, p) => {
        const path = hullOfCircles(cs);
        const points = flatten(path, 1e-3);
        const near = Math.min(
          ...points.map((a, i) => {
            const b = points[(i + 1) % points.length] ?? a;
            const t = Math.min(
              1,
              Math.max(
                0,
                ((p.x - a.x) * (b.x - a.x) + (p.y - a.y) * (b.y - a.y)) /
                  Math.max((b.x - a.x) ** 2 + (b.y - a.y) ** 2, 1e-30),
              ),
            );
            return Math.hypot(p.x - a.x - t * (b.x - a.x), p.y - a.y - t * (b.y - a.y));
          }),
        );
        let odd = false;
        for (const [i, a] of points.entries()) {
          const b = points[(i + 1) % points.length] ?? a;
          if (a.y > p.y !== b.y > p.y && p.x < a.x + ((p.y - a.y) * (b.x - a.x)) / (b.y - a.y)) odd = !odd;
        }
        fc.pre(near > 2e-3);
        expect(Math.abs(depthInside(p, path) - (odd ? near : -near))).toBeLessThan(2e-3);
      }),
      seeded,
    );
  });
});
