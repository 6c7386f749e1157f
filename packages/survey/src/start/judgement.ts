import { systemOf } from '../adjust/system.js';
import type { Network } from '../network/network.js';
import { clockMisfit, farClocks } from './misfit.js';
import { lowerOf } from './reseat.js';
import type { LocalMinimum } from './levenberg-marquardt.js';
import { soundButForFew, soundLimit } from './sound.js';
import type { Basin } from './basin.js';

/** What makes one arrangement better than another, and one good enough. */
interface Judgement {
  /** Whether the clocks plainly prefer the first. */
  readonly preferred: (a: Float64Array, b: Float64Array) => boolean;
  /** The lower one; of two equally low the preferred one. */
  readonly lower: <One extends LocalMinimum>(a: One, b: One) => One;
  /** Of two that the readings fit about alike the one that no clock counts against; else the lower one. */
  readonly likelier: <One extends LocalMinimum>(a: One, b: One) => One;
  /** Sound readings could have given it. */
  readonly isSound: (s: LocalMinimum) => boolean;
  /** Few were misread and the rest could have given it: the readings check each other well enough to say so. */
  readonly isSoundButForFew: (s: LocalMinimum) => boolean;
  /** Lifts spent on looking for something lower still than a sound arrangement. */
  readonly patience: (s: Basin) => number;
  /**
   * What is asked before a sound arrangement is taken: beginnings made, and a longer look where sound readings seldom
   * give it or clocks count against it.
   */
  readonly asks: (s: Basin) => { readonly beginnings: number; readonly longer: boolean };
}

/**
 * Clocks prefer an arrangement to another where they lie nearer by this, rad²: less is the same arrangement not quite
 * adjusted.
 */
const PLAINLY = 1e-3;
/**
 * χ² by which an arrangement may be worse for each clock that counts against the other: odds of three to one, though a
 * clock is seldom so far off.
 */
const ALIKE = 2;
/** Nothing lies lower than this. */
const EXACT = 1e-6;
/**
 * Lifts for each feature of a large face (in a small one single moves reach everything), where nothing vouches for the
 * arrangement, and where clocks count against it.
 */
const LIFTS = { feature: 0.2, small: 12, unvouched: 10, against: 30 } as const;
/** Beginnings where nothing vouches for the arrangement. */
const UNVOUCHED = 6;
/**
 * Sound readings fit so badly no oftener than this; then so many beginnings are tried for an arrangement that they fit
 * better.
 */
const DOUBTFUL = [
  { seldom: 0.005, beginnings: 24 },
  { seldom: 0.05, beginnings: 8 },
] as const;
/**
 * Where clocks lie far off, so many beginnings are tried for each of these, and at most, for an arrangement that suits
 * both.
 */
const AGAINST_CLOCKS = { each: 6, most: 24 } as const;

export const judgementOf = (network: Network): Judgement => {
  const equations = systemOf(network);
  const features = network.unknowns.features.size;
  const clocked = network.face.features.some((f) => f.clock !== null && f.id !== network.face.centre);
  const checked = network.observations.length - network.unknowns.count > features;
  const preferred = (a: Float64Array, b: Float64Array): boolean =>
    clocked && clockMisfit(network, a) < clockMisfit(network, b) - PLAINLY;
  const lower = lowerOf(preferred);
  /** Readings that check each other, or clocks, support it. */
  const vouched = (s: Basin): boolean => checked || (clocked && s.far === 0);
  const misfitting = (s: LocalMinimum): number =>
    DOUBTFUL.find(({ seldom }) => s.chi2 > soundLimit(equations, s.x, 0, seldom))?.beginnings ?? 0;
  return {
    preferred,
    lower,
    likelier: (a, b) => {
      const [first, second] = [farClocks(network, a.x), farClocks(network, b.x)];
      if ((first === 0) !== (second === 0) && Math.abs(a.chi2 - b.chi2) <= ALIKE * (first + second))
        return first === 0 ? a : b;
      return lower(a, b);
    },
    isSound: (s) => s.chi2 <= soundLimit(equations, s.x),
    isSoundButForFew: (s) => checked && soundButForFew(equations, s),
    patience: (s) => {
      if (s.chi2 < EXACT) return 0;
      if (s.far > 0) return LIFTS.against;
      if (!vouched(s)) return LIFTS.unvouched;
      return features > LIFTS.small ? LIFTS.feature * features : 0;
    },
    asks: (s) => {
      const doubts = Math.max(misfitting(s), Math.min(s.far * AGAINST_CLOCKS.each, AGAINST_CLOCKS.most));
      return { beginnings: Math.max(doubts, s.chi2 < EXACT || vouched(s) ? 0 : UNVOUCHED), longer: doubts > 0 };
    },
  };
};
