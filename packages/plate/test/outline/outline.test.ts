import { DEGREE, apply, distance, edgesOf, flatten, pathBox, rotation, signedArea } from '@fayplate/core';
import type { RimPoint } from '@fayplate/job';
import fc from 'fast-check';
import BufferOp from 'jsts/org/locationtech/jts/operation/buffer/BufferOp.js';
import BufferParameters from 'jsts/org/locationtech/jts/operation/buffer/BufferParameters.js';
import Coordinate from 'jsts/org/locationtech/jts/geom/Coordinate.js';
import GeometryFactory from 'jsts/org/locationtech/jts/geom/GeometryFactory.js';
import { describe, expect, test } from 'vitest';
import { beltPath } from '../../src/outline/hull.js';
import { depthInside } from '../../src/outline/inside.js';
import { rectanglePath } from '../../src/outline/outline.js';
import { bench, fasten, plateOf, ring, soundBench } from '../support/plate.js';
import { seeded, within } from '../support/seeds.js';

/** A star-shaped ring of points, no two too near in direction: what a person would mark round a part. */
const aRing = fc
  .record({
    n: fc.integer({ min: 4, max: 9 }),
    radii: fc.array(within(60, 110), { minLength: 9, maxLength: 9 }),
    start: within(-3, 3),
  })
  .map(({ n, radii, start }) =>
    Array.from({ length: n }, (_, i) => ({
      x: (radii[i] ?? 80) * Math.cos(start + (2 * Math.PI * i) / n),
      y: (radii[i] ?? 80) * Math.sin(start + (2 * Math.PI * i) / n),
    })),
  );

/** The polygon grown by a general geometry library (jsts, arcs of 400 chords a quarter). */
const grown = (points: readonly { x: number; y: number }[], by: number): number => {
  const factory = new GeometryFactory();
  const first = points[0] ?? { x: 0, y: 0 };
  const polygon = factory.createPolygon([...points, first].map((p) => new Coordinate(p.x, p.y)));
  const op = new BufferOp(polygon, new BufferParameters(400));
  return op.getResultGeometry(by).getArea();
};

describe('an outline like a rim', () => {
  test('points with a margin are the polygon grown by it, whichever way round they are written', () => {
    fc.assert(
      fc.property(aRing, within(0.5, 8), (points, margin) => {
        const circles = points.map((centre) => ({ centre, radius: margin }));
        const path = beltPath(circles);
        expect(path).not.toBeNull();
        if (path === null) return;
        const theirs = grown(points, margin);
        // 1,600 chords round a circle of 8 mm fall short of it by 8² π · (2π/1600)²/6.
        expect(Math.abs(signedArea(path) - theirs)).toBeLessThan(1e-3);
        expect(signedArea(beltPath([...circles].reverse()) ?? path)).toBeCloseTo(signedArea(path), 9);
        for (const p of points) expect(depthInside(p, path)).toBeGreaterThan(margin - 1e-9);
      }),
      { ...seeded, numRuns: 60 },
    );
  });
  test('margin 0 is the polygon itself', () => {
    const square = [
      { x: 0, y: 0 },
      { x: 40, y: 0 },
      { x: 40, y: 30 },
      { x: 0, y: 30 },
    ];
    expect(
      signedArea(
        beltPath(square.map((centre) => ({ centre, radius: 0 }))) ??
          rectanglePath({ left: 0, right: 1, bottom: 0, top: 1 }, 0),
      ),
    ).toBeCloseTo(1200, 12);
  });
  test('what makes no outline is refused', () => {
    expect(
      beltPath([
        { centre: { x: 0, y: 0 }, radius: 3 },
        { centre: { x: 9, y: 0 }, radius: 3 },
      ]),
    ).toBeNull();
    const flange = beltPath([{ centre: { x: 1, y: 2 }, radius: 3 }]);
    expect(flange === null ? null : signedArea(flange)).toBeCloseTo(9 * Math.PI, 9);
    expect(beltPath([{ centre: { x: 1, y: 2 }, radius: 0 }])).toBeNull();
    expect(
      beltPath([
        { centre: { x: 0, y: 0 }, radius: 30 },
        { centre: { x: 9, y: 0 }, radius: 3 },
        { centre: { x: 0, y: 40 }, radius: 3 },
      ]),
    ).toBeNull();
  });
  test("goes with its face: a plate like the second face's rim turns with it and flips with its view", () => {
    const rim = [
      { at: { x: -70, y: -60 } },
      { at: { x: 90, y: -60 } },
      { at: { x: 90, y: 60 } },
      { at: { x: -70, y: 60 } },
    ];
    const b = (clocking: number, viewed: 'from outside' | 'from behind') =>
      plateOf(
        bench(
          { spots: ring(3, 30, 0, { kind: 'stud', thread: 'M6', d: 6 }) },
          { spots: ring(3, 45, 0.4, { kind: 'hole', d: 11 }), face: { rim, viewed } },
          {
            clocking: { at: clocking },
            outline: { shape: 'like', face: 'motor', margin: 0 },
            fasten: new Map([['motor', fasten({ as: 'tapped', thread: 'M10', engagement: { times: 1 } })]]),
          },
        ),
      ).outline;
    const box = (clocking: number, viewed: 'from outside' | 'from behind') => pathBox(b(clocking, viewed).path);
    expect(box(0, 'from behind')).toEqual({ left: -70, right: 90, bottom: -60, top: 60 });
    expect(box(0, 'from outside')).toEqual({ left: -90, right: 70, bottom: -60, top: 60 });
    const quarter = box(90 * DEGREE, 'from behind');
    // A quarter clockwise: the side that lay at x = 90 lies at y = −90.
    expect([quarter.bottom, quarter.top, quarter.left, quarter.right].map((v) => Number(v.toFixed(9)))).toEqual([
      -90, 70, -60, 60,
    ]);
    expect(b(0, 'from behind').area).toBeCloseTo(160 * 120, 9);
  });
  test('one lobe alone is a round part, by its own radius', () => {
    const spots = ring(4, 60, 45 * DEGREE, { kind: 'stud', thread: 'M8', d: 8 });
    const made = (rim: readonly RimPoint[], margin: number) =>
      plateOf(bench({ spots, face: { rim } }, { spots: {} }, { outline: { shape: 'like', face: 'pump', margin } }))
        .outline.area;
    const [first = ''] = Object.keys(spots);
    expect(made([{ round: first, radius: 200 }], 0)).toBeCloseTo(Math.PI * 200 * 200, 6);
    expect(made([{ round: first, radius: 200 }], -5)).toBeCloseTo(Math.PI * 195 * 195, 6);
    // The same by the metal round the stud of 8 mm.
    expect(made([{ feature: first, margin: 196 }], 0)).toBeCloseTo(Math.PI * 200 * 200, 6);
  });
  test('features of the rim keep metal round their own edge', () => {
    const spots = ring(4, 60, 45 * DEGREE, { kind: 'stud', thread: 'M8', d: 8 });
    const rim = Object.keys(spots).map((feature) => ({ feature, margin: 10 }));
    const plate = plateOf(
      bench({ spots, face: { rim } }, { spots: {} }, { outline: { shape: 'like', face: 'pump', margin: 0 } }),
    );
    const side = 2 * (60 * Math.SQRT1_2);
    expect(plate.outline.area).toBeCloseTo(side * side + 4 * side * 14 + Math.PI * 14 * 14, 9);
  });
});

describe('a rectangle', () => {
  test('by hand: corners rounded, and no more than half a side', () => {
    const box = { left: -50, right: 50, bottom: -20, top: 20 };
    expect(signedArea(rectanglePath(box, 8))).toBeCloseTo(100 * 40 - (4 - Math.PI) * 64, 9);
    expect(signedArea(rectanglePath(box, 80))).toBeCloseTo(60 * 40 + Math.PI * 400, 9);
    expect(signedArea(rectanglePath(box, 0))).toBe(4000);
    expect(pathBox(rectanglePath(box, 8))).toEqual(box);
  });
});

describe('every outline', () => {
  const shapes = [
    { shape: 'follow', margin: 9, corner: null },
    { shape: 'follow', margin: 9, corner: 40 },
    { shape: 'round', margin: 9, diameter: null },
    { shape: 'rectangle', margin: 9, corner: 12 },
  ] as const;
  test.each(shapes)('$shape holds every cut with its margin, and nothing hangs out', (outline) => {
    const plate = plateOf(soundBench({ outline }));
    const rims = [
      ...plate.holes.map((h) => ({ p: h, r: Math.max(h.sink?.diameter ?? 0, h.diameter, h.thread?.major ?? 0) / 2 })),
      ...plate.bores.map((b) => ({ p: b, r: b.diameter / 2 })),
    ];
    const least = Math.min(...rims.map(({ p, r }) => depthInside(p, plate.outline.path) - r));
    expect(least).toBeGreaterThan(9 - 1e-9);
    const box = pathBox(plate.outline.path);
    expect(plate.outline.blank).toEqual({ width: box.right - box.left, height: box.top - box.bottom, thickness: 20 });
    expect(plate.outline.area).toBeCloseTo(signedArea(plate.outline.path), 9);
    for (const [from, edge] of edgesOf(plate.outline.path))
      expect(distance(from, edge.to) + (edge.kind === 'arc' ? 1 : 0)).toBeGreaterThan(1e-9);
  });
  test('by hand: a round plate reaches its margin beyond the farthest hole, about the plate’s origin', () => {
    // M10 at 97.5: 97.5 + 5 + 9.
    expect(
      plateOf(soundBench({ outline: { shape: 'round', margin: 9, diameter: null } })).outline.blank.width,
    ).toBeCloseTo(2 * 111.5, 9);
    const stated = plateOf(soundBench({ outline: { shape: 'round', margin: null, diameter: 230 } })).outline.path;
    expect(pathBox(stated)).toEqual({ left: -115, right: 115, bottom: -115, top: 115 });
  });
  test(
    'follow is the smallest convex plate that keeps the margin: ' +
      'a straightedge anywhere outside touches a cut grown by it',
    () => {
      const plate = plateOf(soundBench({ outline: { shape: 'follow', margin: 9, corner: null } }));
      const circles = plate.holes.map((h) => ({
        x: h.x,
        y: h.y,
        r: Math.max(h.sink?.diameter ?? 0, h.thread?.major ?? 0, h.diameter) / 2 + 9,
      }));
      for (let k = 0; k < 360; k++) {
        const u = apply(rotation(k * DEGREE), { x: 1, y: 0 });
        const outer = Math.max(...flatten(plate.outline.path, 1e-4).map((p) => p.x * u.x + p.y * u.y));
        const cuts = Math.max(...circles.map((c) => c.x * u.x + c.y * u.y + c.r));
        expect(Math.abs(outer - cuts)).toBeLessThan(1e-3);
      }
    },
  );
});
