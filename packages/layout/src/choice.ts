import type { Candidate } from './types.js';

/** Odds that are asked of a layout before it is taken … */
export const SURE = 0.95;
/** … and the chance of a worse fit. */
const FITS = 0.01;

/** Index of the candidate that is sure enough to be taken, likeliest first; null where none is. */
export const chosenOf = ([first]: readonly Candidate[]): number | null =>
  first !== undefined && first.odds >= SURE && (first.p === null || first.p >= FITS) ? 0 : null;
