import type { Candidate } from '../types.js';

/** What a candidate says of the arrangement alone: who is divided how about what, sizes left out. */
export const arrangementOf = (c: Candidate): string =>
  JSON.stringify([
    c.circles.map((k) => [k.about, k.divisions, k.features, k.occupied.map((o) => o - (k.occupied[0] ?? 0)), k.turned]),
    c.arrays.map((a) => [a.about, a.columns, a.rows, a.features, a.turned]),
    c.grid === null ? null : [c.grid.step, c.grid.features],
    c.mirror?.said === true ? c.mirror.features : null,
    c.opposite,
    c.asMeasured,
  ]);

/** Odds of an arrangement, whatever its sizes. */
export const oddsOfArrangement = (candidates: readonly Candidate[], of: Candidate): number => {
  const key = arrangementOf(of);
  return candidates.reduce((s, c) => s + (arrangementOf(c) === key ? c.odds : 0), 0);
};
