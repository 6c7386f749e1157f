import { asLow } from '../adjust/adjustment.js';
import type { LocalMinimum } from './levenberg-marquardt.js';

/** An arrangement that the search works on. */
export interface Basin extends LocalMinimum {
  readonly from: string;
  /** Moves since it last fell. */
  readonly idle: number;
  /** Every feature has been tried in its other places. */
  readonly mended: boolean;
  /** What the beginnings that have led here came from. */
  readonly met: readonly string[];
  /** Clocks that count against it. */
  readonly far: number;
}

export const equallyLow = (a: LocalMinimum, b: LocalMinimum): boolean => asLow(a.chi2, b.chi2) && asLow(b.chi2, a.chi2);

/** Two that have come to the same, as one: the better of them, with the history of both. */
export const joined = (a: Basin, b: Basin, better: (a: Basin, b: Basin) => Basin): Basin => ({
  ...better(a, b),
  idle: Math.max(a.idle, b.idle),
  mended: a.mended || b.mended,
  met: [...a.met, ...b.met],
});

/** Worked on next is the arrangement of the least χ²; one move without gain weighs as much as this factor. */
const WEARY = 1.2;
/** So does each clock that counts against it: one that all clocks support may be folded in a few places only. */
const AGAINST = 2;
/** Among those that fit exactly the others decide. */
const NEXT_TO_NOTHING = 1e-6;

const weight = (s: Basin): number => (s.chi2 + NEXT_TO_NOTHING) * Math.pow(WEARY, s.idle) * Math.pow(AGAINST, s.far);

export const mostHopeful = (pool: readonly Basin[]): Basin | undefined =>
  pool.reduce<Basin | undefined>((a, b) => (a !== undefined && weight(a) <= weight(b) ? a : b), undefined);
