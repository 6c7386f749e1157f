import { describe, expect, test } from 'vitest';
import { roomLeft } from '../support/shop.js';
import { claimsOf, surprise } from './claims.js';

const seeds = Array.from({ length: 24 }, (_, i) => 10_000 + i);

describe('what is claimed of a plate comes true', () => {
  test(
    'the chance that it goes on, over 48 faces of simulated shops, ' +
      'drilled with the shop’s own errors and tried on the true parts',
    () => {
      const claims = seeds.flatMap((seed) => claimsOf(seed, 400));
      expect(claims.filter((c) => c.chance > 0.05 && c.chance < 0.95).length).toBeGreaterThan(12);
      expect(Math.abs(surprise(claims))).toBeLessThan(3);
    },
  );

  test('and would not, if the centres were taken for exact', () => {
    expect(surprise(seeds.slice(0, 16).flatMap((seed) => claimsOf(seed, 400, true)))).toBeLessThan(-4);
  });
});

describe('the judge of what goes on', () => {
  const square = [
    { x: 40, y: 0 },
    { x: 0, y: 40 },
    { x: -40, y: 0 },
    { x: 0, y: -40 },
  ];
  const turned = (a: number, x: number, y: number) =>
    square.map((p) => ({
      x: Math.cos(a) * p.x - Math.sin(a) * p.y + x,
      y: Math.sin(a) * p.x + Math.cos(a) * p.y + y,
      room: 0.2,
    }));

  test('finds the whole room again after any shift and turn', () => {
    for (const [a, x, y] of [
      [0, 0, 0],
      [0.4, 12, -7],
      [-2, 0.3, 90],
    ] as const)
      expect(roomLeft(square, turned(a, x, y))).toBeCloseTo(0.2, 4);
  });

  test('one hole out by e costs what the plate can share out: two pins, half of e each', () => {
    const pins = [
      { x: -40, y: 0 },
      { x: 40, y: 0 },
    ];
    expect(
      roomLeft(pins, [
        { x: -40, y: 0, room: 0.2 },
        { x: 40.3, y: 0, room: 0.2 },
      ]),
    ).toBeCloseTo(0.05, 4);
    expect(
      roomLeft(pins, [
        { x: -40, y: 0, room: 0.2 },
        { x: 40.5, y: 0, room: 0.2 },
      ]),
    ).toBeCloseTo(-0.05, 4);
  });
});
