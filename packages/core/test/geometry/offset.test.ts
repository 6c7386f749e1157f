import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  type Path,
  circlePath,
  crossings,
  distance,
  offsetPath,
  pathLength,
  polar,
  polygonPath,
  signedArea,
} from '../../src/index.js';
import { seeded, within } from '../support.js';

/** Steiner 1840: a convex outline moved out by d has A + P d + π d² and P + 2π d. */
describe('an outline moved out or in', () => {
  test('a convex one by Steiner’s formula, arcs or not', () => {
    fc.assert(
      fc.property(fc.integer({ min: 3, max: 9 }), within(5, 80), within(0.1, 20), (n, r, d) => {
        const path = polygonPath(Array.from({ length: n }, (_, i) => polar(r, (2 * Math.PI * i) / n)));
        const out = offsetPath(path, d);
        if (out === null) throw new Error('no outline');
        expect(signedArea(out)).toBeCloseTo(signedArea(path) + pathLength(path) * d + Math.PI * d * d, 6);
        expect(pathLength(out)).toBeCloseTo(pathLength(path) + 2 * Math.PI * d, 6);
        // Out and in again: what the arcs rounded stays away from no straight edge.
        const back = offsetPath(out, -d / 2);
        if (back === null) throw new Error('no outline');
        expect(signedArea(back)).toBeCloseTo(signedArea(path) + (pathLength(path) * d) / 2 + (Math.PI * d * d) / 4, 6);
      }),
      seeded,
    );
  });

  test('a circle by its radius, and not by more than it has', () => {
    expect(signedArea(offsetPath(circlePath({ x: 3, y: 4 }, 10), 2) ?? circlePath({ x: 0, y: 0 }, 1))).toBeCloseTo(
      144 * Math.PI,
      9,
    );
    expect(signedArea(offsetPath(circlePath({ x: 3, y: 4 }, 10), -2) ?? circlePath({ x: 0, y: 0 }, 1))).toBeCloseTo(
      64 * Math.PI,
      9,
    );
    expect(offsetPath(circlePath({ x: 3, y: 4 }, 10), -11)).toBeNull();
  });

  /** A square of 20 with a half-round waist of radius 5 in its lower side; worked by hand. */
  const waisted: Path = {
    start: { x: -10, y: -10 },
    closed: true,
    edges: [
      { kind: 'line', to: { x: -5, y: -10 } },
      { kind: 'arc', to: { x: 5, y: -10 }, centre: { x: 0, y: -10 }, ccw: false },
      { kind: 'line', to: { x: 10, y: -10 } },
      { kind: 'line', to: { x: 10, y: 10 } },
      { kind: 'line', to: { x: -10, y: 10 } },
      { kind: 'line', to: { x: -10, y: -10 } },
    ],
  };
  test('a hollow waist: its arc loses what the rest gains', () => {
    expect(signedArea(waisted)).toBeCloseTo(400 - (25 * Math.PI) / 2, 9);
    const out = offsetPath(waisted, 1);
    const waist = out?.edges.find((e) => e.kind === 'arc' && !e.ccw);
    expect(waist?.kind === 'arc' && distance(waist.to, waist.centre)).toBeCloseTo(4, 9);
    // 70 of straight edges, four outer corners and two lips a quarter disc each, and half a ring between 5 and 4.
    expect(signedArea(out ?? waisted)).toBeCloseTo(signedArea(waisted) + 70 + 1.5 * Math.PI + 4.5 * Math.PI, 9);
    expect(offsetPath(waisted, 6)).toBeNull();
  });
});

describe('where curves cross', () => {
  test('two circles of 5 whose centres are 6 apart: 4 off the line between them', () => {
    const at = crossings(
      { kind: 'circle', centre: { x: 0, y: 0 }, radius: 5 },
      { kind: 'circle', centre: { x: 6, y: 0 }, radius: 5 },
    );
    expect(at.map((p) => [Math.abs(p.x - 3) < 1e-9, Math.abs(Math.abs(p.y) - 4) < 1e-9])).toEqual([
      [true, true],
      [true, true],
    ]);
  });
  test('none where they lie apart or side by side', () => {
    const circle = { kind: 'circle', centre: { x: 0, y: 0 }, radius: 5 } as const;
    expect(crossings(circle, { ...circle, centre: { x: 11, y: 0 } })).toEqual([]);
    const line = { kind: 'line', at: { x: 0, y: 0 }, along: { x: 1, y: 0 } } as const;
    expect(crossings(line, { ...line, at: { x: 0, y: 1 } })).toEqual([]);
  });
});
