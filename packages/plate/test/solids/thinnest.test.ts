import { circlePath, distance, polar } from '@fayplate/core';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { rectanglePath } from '../../src/outline/outline.js';
import { depthInside } from '../../src/outline/inside.js';
import { type Cut, distanceToSpine } from '../../src/solids/cut.js';
import { nearestOnPath, thinnestBetween, thinnestToEdge, thinnestWithin } from '../../src/solids/thinnest.js';

const cut = (x: number, y: number, r: number, z0 = 0, z1 = 20, to = { x, y }): Cut => ({
  id: 'H',
  what: 'hole',
  spine: [{ x, y }, to],
  slices: [{ z0, z1, r0: r, r1: r }],
  turns: false,
  nominal: null,
});

describe('the thinnest metal between two cuts', () => {
  // By hand: 30 and 6 in diameter, 20 apart: metal from 15 to 17, its middle at 16; midway between the centres, 10,
  // lies in the larger hole.
  test('of unlike sizes lies between their walls', () => {
    expect(thinnestBetween(cut(0, 0, 15), cut(20, 0, 3))).toMatchObject({ x: 16, y: 0, z: 10 });
  });

  test('where one is sunk, at the depth of the head', () => {
    const sunk: Cut = {
      ...cut(0, 0, 4),
      slices: [
        { z0: 12, z1: 20, r0: 8, r1: 8 },
        { z0: 0, z1: 12, r0: 4, r1: 4 },
      ],
    };
    // Head of 8 to a wall at 17: 12.5, at the middle of 12 … 20.
    expect(thinnestBetween(sunk, cut(20, 0, 3))).toMatchObject({ x: 12.5, z: 16 });
  });

  test('holes that break into each other: the middle of what both take away', () => {
    expect(thinnestBetween(cut(0, 0, 15), cut(16, 0, 3)).x).toBeCloseTo(14, 9);
  });

  test('beside a slot, at its nearer end', () => {
    const slot = cut(0, 0, 3, 0, 20, { x: 10, y: 0 });
    expect(thinnestBetween(slot, cut(20, 0, 2)).x).toBeCloseTo(15.5, 9);
  });

  test('any two that keep apart: as far from one wall as from the other, and from nowhere nearer', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1, max: 20, noNaN: true }),
        fc.double({ min: 1, max: 20, noNaN: true }),
        fc.double({ min: 0.2, max: 30, noNaN: true }),
        fc.double({ min: 0, max: 6.28, noNaN: true }),
        (ra, rb, web, angle) => {
          const far = polar(ra + rb + web, angle);
          const a = cut(3, -2, ra);
          const b = cut(3 + far.x, -2 + far.y, rb);
          const at = thinnestBetween(a, b);
          expect(distanceToSpine(at, a.spine) - ra).toBeCloseTo(web / 2, 9);
          expect(distanceToSpine(at, b.spine) - rb).toBeCloseTo(web / 2, 9);
          const other = thinnestBetween(b, a);
          expect(distance(at, other)).toBeLessThan(1e-9);
        },
      ),
      { seed: 61, numRuns: 200 },
    );
  });
});

test('a hole on the floor of a pocket: on the side where it comes nearest to the wall', () => {
  expect(
    thinnestWithin(
      [
        { x: 30, y: 0 },
        { x: 30, y: 0 },
      ],
      4,
      { x: 0, y: 0 },
      40,
    ),
  ).toMatchObject({ x: 37, y: 0 });
});

describe('beside the edge', () => {
  const box = rectanglePath({ left: -50, right: 50, bottom: -30, top: 30 }, 5);
  test('of a rectangle, a circle, and over the edge', () => {
    expect(
      thinnestToEdge(
        [
          { x: 0, y: 20 },
          { x: 0, y: 20 },
        ],
        4,
        box,
      ),
    ).toMatchObject({ x: 0, y: 27 });
    const round = thinnestToEdge(
      [
        { x: 30, y: 0 },
        { x: 30, y: 0 },
      ],
      4,
      circlePath({ x: 0, y: 0 }, 40),
    );
    expect(round.x).toBeCloseTo(37, 9);
    expect(
      thinnestToEdge(
        [
          { x: 0, y: 28 },
          { x: 0, y: 28 },
        ],
        4,
        box,
      ),
    ).toMatchObject({ x: 0, y: 30 });
  });
  test('the nearest place of an outline is as far away as the depth says', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -60, max: 60, noNaN: true }),
        fc.double({ min: -40, max: 40, noNaN: true }),
        (x, y) => {
          const p = { x, y };
          expect(distance(p, nearestOnPath(p, box))).toBeCloseTo(Math.abs(depthInside(p, box)), 9);
        },
      ),
      { seed: 62, numRuns: 300 },
    );
  });
});
