import { type Point, distance } from '@fayplate/core';
import { type Measured, covarianceAt } from '../measured/points.js';

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

/** How far apart places may be that ought to be one, for features known like these, mm. */
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
