import fc from 'fast-check';
import { expect, test } from 'vitest';
import { crossingOf } from '../../src/index.js';

const square = [
  { x: 0, y: 0 },
  { x: 4, y: 0 },
  { x: 4, y: 4 },
  { x: 0, y: 4 },
] as const;

test('a square in order is simple, either way round', () => {
  expect(crossingOf(square)).toBeNull();
  expect(crossingOf(square.toReversed())).toBeNull();
});

test('two corners swapped cross', () => {
  const [a, b, c, d] = square;
  expect(crossingOf([a, c, b, d])).not.toBeNull();
  expect(crossingOf([a, b, d, c])).not.toBeNull();
});

test('a spike that runs back on itself, a point on another edge and a point twice are no outline', () => {
  const [a, b, c, d] = square;
  expect(crossingOf([a, b, { x: 2, y: 0 }, c, d])).not.toBeNull();
  expect(crossingOf([a, b, c, { x: 2, y: 0 }, d])).not.toBeNull();
  expect(crossingOf([a, b, c, b, d])).not.toBeNull();
});

test('points in order of their direction from a place are simple', () => {
  const star = fc.array(fc.double({ min: 20, max: 60, noNaN: true }), { minLength: 5, maxLength: 16 }).map((radii) =>
    radii.map((r, i) => ({
      x: r * Math.cos((2 * Math.PI * i) / radii.length),
      y: r * Math.sin((2 * Math.PI * i) / radii.length),
    })),
  );
  fc.assert(
    fc.property(star, (points) => {
      expect(crossingOf(points)).toBeNull();
    }),
    { seed: 15 },
  );
});
