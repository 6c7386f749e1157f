import { type Point, distance, heading, subtract } from '@fayplate/core';
import type { Measured } from '../measured/points.js';
import { at, spread } from './near.js';

const QUARTER = Math.PI / 2;

/** Into [0, π/2). */
export const quarter = (a: number): number => ((a % QUARTER) + QUARTER) % QUARTER;

/**
 * Directions that the axes of a drawing may have, in [0, π/2): along each line through two of these features, like ones once (the best known,
 * from the longest line), those that most lines share first.
 */
export const axes = (measured: Measured, features: readonly number[]): readonly number[] => {
  const lines = features.flatMap((a, i) =>
    features.slice(i + 1).map((b) => {
      const length = Math.max(distance(at(measured, a), at(measured, b)), 1e-9);
      return {
        turn: quarter(heading(subtract(at(measured, b), at(measured, a)))),
        sigma: Math.hypot(spread(measured, a), spread(measured, b)) / length,
      };
    }),
  );
  const kept: { readonly turn: number; readonly sigma: number; count: number }[] = [];
  for (const line of lines.sort((a, b) => a.sigma - b.sigma)) {
    const same = kept.find(
      (k) => Math.abs(quarter(k.turn - line.turn + QUARTER / 2) - QUARTER / 2) <= 3 * Math.hypot(k.sigma, line.sigma),
    );
    if (same === undefined) kept.push({ ...line, count: 1 });
    else same.count++;
  }
  return kept.sort((a, b) => b.count - a.count).map((k) => k.turn);
};

/** Coordinates along an axis and to its left. */
export const along = (p: Point, from: Point, axis: number): readonly [number, number] => {
  const c = Math.cos(axis);
  const s = Math.sin(axis);
  const d = subtract(p, from);
  return [c * d.x + s * d.y, -s * d.x + c * d.y];
};
