import { byCodeUnit } from '@fayplate/core';
import type { Candidate, LaidArray } from '../types.js';

/** Whether an array is the four corners of a square, which are four equal divisions of a circle too. */
export const isSquareOfFour = ({ columns, rows, pitch, features }: LaidArray): boolean =>
  columns === 2 && rows === 2 && features.length === 4 && Math.abs((pitch[0] ?? 0) - (pitch[1] ?? 0)) < 1e-9;

/** What a candidate says of the arrangement alone: who is divided how about what, sizes left out. */
export const arrangementOf = (c: Candidate): string => {
  const squares = c.arrays.filter(isSquareOfFour);
  const others = c.arrays.filter((a) => !isSquareOfFour(a));
  // A circle whose every place is taken is the same whichever is counted first.
  const full = (about: string | null, features: readonly string[]): unknown => [
    about,
    features.length,
    [...features].sort(byCodeUnit),
  ];
  const circles = c.circles.map((k) =>
    k.divisions === k.features.length
      ? [full(k.about, k.features), k.turned]
      : [k.about, k.divisions, k.features, k.occupied.map((o) => o - (k.occupied[0] ?? 0)), k.turned],
  );
  return JSON.stringify([
    [...circles, ...squares.map((a) => [full(a.about, a.features), a.turned])],
    others.map((a) => [a.about, a.columns, a.rows, a.features, a.turned]),
    c.grid === null ? null : [c.grid.step, c.grid.features],
    c.mirror?.said === true ? c.mirror.features : null,
    c.opposite,
    c.asMeasured,
  ]);
};

/** Odds of an arrangement, whatever its sizes. */
export const oddsOfArrangement = (candidates: readonly Candidate[], of: Candidate): number => {
  const key = arrangementOf(of);
  return candidates.reduce((s, c) => s + (arrangementOf(c) === key ? c.odds : 0), 0);
};
