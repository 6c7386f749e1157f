import { circlePath, pathLength, polar, signedArea } from '@fayplate/core';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { depthInside } from '../../src/outline/inside.js';
import { biteOf, bitten, mouthful } from '../../src/outline/notch.js';
import { rectanglePath } from '../../src/outline/outline.js';
import {
  aboutSpine,
  rectangleSpine,
  signedToSpine,
  spineArea,
  spineDistance,
  spineGirth,
} from '../../src/solids/cut.js';

const real = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const aPlace = fc.record({ x: real(-50, 50), y: real(-50, 50) });
const anArea = fc
  .tuple(aPlace, real(-3, 3), real(2, 40), real(2, 40))
  .map(([at, angle, l, w]) => rectangleSpine(at, angle, [-l / 2, l / 2], [-w / 2, w / 2]));

describe('an area with rounded corners', () => {
  /**
   * Steiner's formula for convex areas: A + U r + π r², and girth U + 2 π r. Source: common knowledge of convex
   * geometry (J. Steiner, 1840), from memory.
   */
  test('has the area and the girth of its parallel', () =>
    fc.assert(
      fc.property(anArea, real(0.5, 20), (spine, r) => {
        const path = aboutSpine(spine, r);
        expect(signedArea(path)).toBeCloseTo(spineArea(spine) + spineGirth(spine) * r + Math.PI * r * r, 6);
        expect(pathLength(path)).toBeCloseTo(spineGirth(spine) + 2 * Math.PI * r, 6);
      }),
      { seed: 731, numRuns: 100 },
    ));

  test('the distance to it is that to its drawn edge, inside and outside', () =>
    fc.assert(
      fc.property(anArea, real(0.5, 20), aPlace, (spine, r, p) => {
        expect(r - signedToSpine(p, spine)).toBeCloseTo(depthInside(p, aboutSpine(spine, r)), 6);
      }),
      { seed: 732, numRuns: 200 },
    ));

  test('two of them are as far apart as the nearest of many places on their edges, and 0 where one lies over the other', () =>
    fc.assert(
      fc.property(anArea, anArea, (a, b) => {
        const on = (s: typeof a): readonly { x: number; y: number }[] =>
          s.flatMap((p, i) => {
            const q = s[(i + 1) % s.length] ?? p;
            return Array.from({ length: 40 }, (_, k) => ({
              x: p.x + ((q.x - p.x) * k) / 40,
              y: p.y + ((q.y - p.y) * k) / 40,
            }));
          });
        const near = Math.min(
          ...on(a).map((p) => Math.max(0, signedToSpine(p, b))),
          ...on(b).map((p) => Math.max(0, signedToSpine(p, a))),
        );
        expect(spineDistance(a, b)).toBeLessThanOrEqual(near + 1e-9);
        expect(spineDistance(a, b)).toBeGreaterThanOrEqual(near - 1.1);
      }),
      { seed: 733, numRuns: 200 },
    ));
});

describe('a bite out of an outline', () => {
  const plate = rectanglePath({ left: -60, right: 60, bottom: -40, top: 40 }, 8);
  const notch = (x: number, y: number, angle: number, width: number, corner: number) =>
    aboutSpine(
      rectangleSpine({ x, y }, angle, [corner - width / 2, 300], [corner - width / 2, width / 2 - corner]),
      corner,
    );

  test('leaves what it does not take', () =>
    fc.assert(
      fc.property(
        real(-3.1, 3.1),
        real(-20, 20),
        real(-12, 12),
        real(4, 15),
        real(0.2, 1),
        (angle, x, y, width, part) => {
          const bite = biteOf(plate, notch(x, y, angle, width, (part * width) / 2));
          if (typeof bite === 'number') throw new Error(`crosses ${bite} times`);
          const [left, taken] = [bitten(bite), mouthful(bite)];
          expect(signedArea(left) + signedArea(taken)).toBeCloseTo(signedArea(plate), 6);
          expect(signedArea(taken)).toBeGreaterThan(0);
          // Just within its inner end it is open, just beyond it there is metal.
          const end = (by: number) => ({ x: x + polar(by, angle).x, y: y + polar(by, angle).y });
          expect(depthInside(end(-width / 2 + 0.01), left)).toBeLessThan(0);
          expect(depthInside(end(-width / 2 - 0.01), left)).toBeGreaterThan(0);
        },
      ),
      { seed: 734, numRuns: 200 },
    ));

  test(
    'of a disc by a round end, by hand: the lens of two circles ' +
      '(Weisstein, MathWorld, Circle-Circle Intersection, from memory)',
    () => {
      const [R, r, d] = [40, 10, 38];
      const bite = biteOf(circlePath({ x: 0, y: 0 }, R), circlePath({ x: d, y: 0 }, r));
      if (typeof bite === 'number') throw new Error('no bite');
      const lens =
        r ** 2 * Math.acos((d ** 2 + r ** 2 - R ** 2) / (2 * d * r)) +
        R ** 2 * Math.acos((d ** 2 + R ** 2 - r ** 2) / (2 * d * R)) -
        Math.sqrt((-d + r + R) * (d + r - R) * (d - r + R) * (d + r + R)) / 2;
      expect(signedArea(mouthful(bite))).toBeCloseTo(lens, 9);
    },
  );

  test('one that lies apart, or wholly inside, crosses nothing', () => {
    expect(biteOf(plate, circlePath({ x: 200, y: 0 }, 10))).toBe(0);
    expect(biteOf(plate, circlePath({ x: 0, y: 0 }, 10))).toBe(0);
    expect(biteOf(plate, notch(-100, 0, 0, 10, 5))).toBe(4);
  });
});
