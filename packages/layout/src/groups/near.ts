import { type Point, distance, heading, subtract } from '@fayplate/core';
import { type Measured, covarianceAt } from '../measured.js';
import type { About } from './group.js';

/** Differences beyond this many standard deviations are not by chance; wide, for the evidence decides afterwards. */
export const WIDE = 4.5;
/** More fasteners than this are searched for circles only: what takes all pairs of pairs would take too long. */
export const MANY = 32;

export const at = (measured: Measured, i: number): Point => {
  const p = measured.points[i];
  if (p === undefined) throw new RangeError(`no point ${i}`);
  return p;
};

/** Standard deviation of a centre, both directions together, mm; the motion that all share is in it. */
export const spread = (measured: Measured, i: number): number =>
  Math.sqrt(covarianceAt(measured, 2 * i, 2 * i) + covarianceAt(measured, 2 * i + 1, 2 * i + 1));

/** Standard deviation of a centre along one direction, mm. */
export const spreadAlong = (measured: Measured, i: number, direction: number): number => {
  const [c, s] = [Math.cos(direction), Math.sin(direction)];
  const [x, y] = [2 * i, 2 * i + 1];
  return Math.sqrt(
    Math.max(
      0,
      c * c * covarianceAt(measured, x, x) +
        2 * c * s * covarianceAt(measured, x, y) +
        s * s * covarianceAt(measured, y, y),
    ),
  );
};

/** How far apart places may be that should be one, for features known like these, mm. */
export const reach = (measured: Measured, features: readonly number[]): number =>
  WIDE * Math.sqrt(features.reduce((s, f) => s + spread(measured, f) ** 2, 0)) + 1e-9;

/** The given centre that a point may be, nearest first; null where it is near none. */
export const centreNear = (measured: Measured, p: Point, wide: number): number | null => {
  const near = measured.centres
    .map((c) => ({ c, d: distance(at(measured, c), p) }))
    .filter(({ c, d }) => d <= wide + WIDE * spread(measured, c))
    .sort((a, b) => a.d - b.d);
  return near[0]?.c ?? null;
};

export const keyOf = (members: readonly number[]): string => [...members].sort((a, b) => a - b).join(' ');

const QUARTER = Math.PI / 2;

/** Into [0, π/2). */
export const quarter = (a: number): number => ((a % QUARTER) + QUARTER) % QUARTER;

/**
 * Directions that the axes of a drawing may have, in [0, π/2): along each line through two of these features, like ones
 * once (the best known, from the longest line), those that most lines share first.
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

/**
 * What a pattern with this middle may be about: a given centre that is near enough, and in any case a middle of its
 * own.
 */
export const aboutMiddle = (measured: Measured, members: readonly number[], middle: Point): readonly About[] => {
  const [feature] = measured.centres;
  const own: About =
    feature === undefined ? { own: middle } : { own: middle, from: { feature, at: at(measured, feature) } };
  const near = centreNear(measured, middle, reach(measured, members.slice(0, 2)));
  return near === null ? [own] : [{ feature: near }, own];
};
