import { once } from '@fayplate/core';
import type { GoesOn, GoesOnSpec } from '../types.js';
import { bestFit } from './best-fit.js';
import { type Run, runTrials } from './trials.js';

/** A share of trials with its standard error and the interval that holds the true chance 95 times in 100. */
interface Share {
  readonly share: number;
  readonly standardError: number;
  readonly between: readonly [number, number];
}

const z = 1.959964;

/**
 * Wilson's score interval (E. B. Wilson 1927, J. Am. Stat. Assoc. 22, 209–212); the standard error is that of the share
 * drawn toward one half by z²/2 trials, so that it does not vanish where all or none of the trials went on.
 */
export const shareOf = (hits: number, trials: number): Share => {
  const n = trials + z * z;
  const middle = (hits + (z * z) / 2) / n;
  const half = (z / n) * Math.sqrt((hits * (trials - hits)) / trials + (z * z) / 4);
  return {
    share: hits / trials,
    standardError: Math.sqrt((middle * (1 - middle)) / n),
    between: [Math.max(0, middle - half), Math.min(1, middle + half)],
  };
};

/** How the chance is counted. */
interface GoesOnOptions {
  readonly trials?: number;
  readonly seed?: number;
  readonly progress?: (done: number, of: number) => void;
  /**
   * Fits that might be used instead, smallest first: a name and each joint's radial clearance, in the order of the
   * joints.
   */
  readonly fits?: readonly { readonly name: string; readonly clearances: readonly (readonly [number, number])[] }[];
}

/** Trials of whether it goes on, where nothing is said. */
const usualTrials = 5000;
/** What counts as certain enough to build: three standard deviations. */
export const enough = 0.997;
/** Trials for which the clearance that is missing is worked out, and for each fit that is tried instead. */
const closeLook = 5000;

/** The probability alone, of the first 5,000 trials at most: for trying what would improve it. */
export const chanceOf = (spec: GoesOnSpec, options: Pick<GoesOnOptions, 'trials' | 'seed'> = {}): number => {
  const { hits, trials } = runTrials(spec, Math.min(options.trials ?? usualTrials, closeLook), options.seed ?? 1, 0);
  return hits / trials;
};

/** Clearance to add on the diameter so that all but 3 in 1,000 of the trials looked at go on. */
const easeFor = (r: Run): number | null => {
  const spared = Math.floor((1 - enough) * Math.min(r.trials, closeLook) + 1e-9);
  const radial = [...r.wanting].sort((a, b) => b - a)[spared] ?? 0;
  return Number.isFinite(radial) ? 2 * Math.max(radial, 0) : null;
};

const proposalOf = (spec: GoesOnSpec, options: GoesOnOptions, seed: number, trials: number): string | null => {
  for (const fit of options.fits ?? []) {
    const joints = spec.joints.map((j, i) => ({ ...j, clearance: fit.clearances[i] ?? j.clearance }));
    if (chanceOf({ ...spec, joints }, { trials, seed }) >= enough) return fit.name;
  }
  return null;
};

/**
 * Probability that every fastener and locator of one face enters its hole, by as many seeded trials as asked: each
 * draws the pins, the holes' making errors and their diameters, and is decided on its own: either a shift and turn is
 * found that lets all pins in, or it is proved that none does. The same seed gives the same answer. What would improve
 * it (`ease`, `proposal`) takes trials of its own, run when it is first read. Throws RangeError where the covariance
 * does not fit.
 */
export const goesOn = (spec: GoesOnSpec, options: GoesOnOptions = {}): GoesOn => {
  const { trials = usualTrials, seed = 1 } = options;
  const r = runTrials(spec, trials, seed, 0, options.progress);
  const { share, standardError, between } = shareOf(r.hits, trials);
  const blamed = r.blame.reduce((a, b) => a + b, 0);
  const stops = spec.joints
    .map((j, i) => [j.id, blamed > 0 ? (r.blame[i] ?? 0) / blamed : 0] as const)
    .filter(([, part]) => part > 0)
    .sort((a, b) => b[1] - a[1]);
  const sure = r.hits >= enough * trials;
  const ease = once(() => (sure ? 0 : easeFor(runTrials(spec, trials, seed, closeLook))));
  const proposal = once(() => (sure ? null : proposalOf(spec, options, seed, trials)));
  return {
    probability: share,
    standardError,
    between,
    trials,
    worst: stops[0]?.[0] ?? null,
    stops: new Map(stops),
    nominal: bestFit(spec.joints),
    get ease() {
      return ease();
    },
    get proposal() {
      return proposal();
    },
  };
};
