import { distance, fitCircle, kasaCircle, point, smallestCircle } from '@fayplate/core';
import { describe, expect, test } from 'vitest';

// Gander, Golub & Strebel 1994, "Least-squares fitting of circles and ellipses", BIT 34, 558–578: the six points of
// their figure, with the geometric fit that the paper prints (read in public programs that quote it, and recomputed).
const gander = [
  [1, 7],
  [2, 6],
  [5, 8],
  [7, 7],
  [9, 5],
  [3, 7],
].map(([x = 0, y = 0]) => point(x, y));

describe('published circle fits', () => {
  test('geometric fit of Gander, Golub & Strebel', () => {
    const c = fitCircle(gander);
    expect(c?.centre.x).toBeCloseTo(4.739782, 6);
    expect(c?.centre.y).toBeCloseTo(2.983533, 6);
    expect(c?.radius).toBeCloseTo(4.714226, 6);
    const rms = Math.sqrt(gander.reduce((s, p) => s + (distance(p, c?.centre ?? p) - (c?.radius ?? 0)) ** 2, 0) / 6);
    expect(rms).toBeCloseTo(0.452327, 6);
  });

  test('the algebraic fit of the same points is another circle, so the check can fail', () => {
    const c = kasaCircle(gander);
    expect(c?.centre.x).toBeCloseTo(4.742331, 6);
    expect(c?.centre.y).toBeCloseTo(3.835123, 6);
    expect(c?.radius).toBeCloseTo(4.108762, 6);
  });

  // A cookbook of a general scientific library (public notebook; recomputed): six points, geometric fit.
  test('the cookbook set', () => {
    const points = [
      [9, 34],
      [35, 10],
      [-13, 6],
      [10, -14],
      [23, 27],
      [0, -10],
    ].map(([x = 0, y = 0]) => point(x, y));
    const c = fitCircle(points);
    expect(c?.centre.x).toBeCloseTo(10.500087, 5);
    expect(c?.centre.y).toBeCloseTo(9.659949, 5);
    expect(c?.radius).toBeCloseTo(23.333528, 5);
  });

  test('the smallest circle round the six points stands on two of them: centre (5, 6), radius √17 (exact)', () => {
    const c = smallestCircle(gander);
    expect(c?.centre.x).toBeCloseTo(5, 12);
    expect(c?.centre.y).toBeCloseTo(6, 12);
    expect(c?.radius).toBeCloseTo(Math.sqrt(17), 12);
  });
});
