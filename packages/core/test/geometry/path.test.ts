import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  type Path,
  boxOf,
  circlePath,
  flatten,
  movePath,
  pathBox,
  pathLength,
  polygonPath,
  signedArea,
  svgPathData,
} from '../../src/index.js';
import { aPoint, aTurn, seeded, within } from '../support.js';

/** A slot: two lines and two half circles. */
const slot = (length: number, r: number): Path => ({
  start: { x: 0, y: -r },
  closed: true,
  edges: [
    { kind: 'line', to: { x: length, y: -r } },
    { kind: 'arc', to: { x: length, y: r }, centre: { x: length, y: 0 }, ccw: true },
    { kind: 'line', to: { x: 0, y: r } },
    { kind: 'arc', to: { x: 0, y: -r }, centre: { x: 0, y: 0 }, ccw: true },
  ],
});

describe('paths of lines and arcs', () => {
  test('areas and lengths are the closed forms', () => {
    fc.assert(
      fc.property(aPoint, within(0.1, 300), within(0, 300), (c, r, l) => {
        expect(signedArea(circlePath(c, r))).toBeCloseTo(Math.PI * r * r, 5);
        expect(pathLength(circlePath(c, r))).toBeCloseTo(2 * Math.PI * r, 8);
        expect(signedArea(slot(l, r))).toBeCloseTo(Math.PI * r * r + 2 * r * l, 5);
      }),
      seeded,
    );
  });

  test('moving keeps the area, a mirror changes its sign', () => {
    fc.assert(
      fc.property(aTurn, aPoint, fc.boolean(), (turn, shift, mirrored) => {
        const moved = movePath({ turn, shift, mirrored }, slot(40, 8));
        expect(signedArea(moved)).toBeCloseTo((mirrored ? -1 : 1) * signedArea(slot(40, 8)), 6);
      }),
      seeded,
    );
  });

  test('the box is that of the flattened path', () => {
    fc.assert(
      fc.property(aTurn, aPoint, (turn, shift) => {
        const p = movePath({ turn, shift, mirrored: false }, slot(40, 8));
        const rough = boxOf(flatten(p, 1e-5));
        const exact = pathBox(p);
        for (const side of ['left', 'right', 'top', 'bottom'] as const)
          expect(Math.abs(rough[side] - exact[side])).toBeLessThan(1e-3);
      }),
      seeded,
    );
  });

  test('path data', () => {
    expect(
      svgPathData(
        polygonPath([
          { x: 0, y: 0 },
          { x: 1, y: 0 },
          { x: 0, y: 1 },
        ]),
      ),
    ).toBe('M 0 0 L 1 0 L 0 1 L 0 0 Z');
    expect(svgPathData(circlePath({ x: 0, y: 0 }, 2))).toBe('M 2 0 A 2 2 0 0 1 -2 0 A 2 2 0 0 1 2 0 Z');
  });
});
