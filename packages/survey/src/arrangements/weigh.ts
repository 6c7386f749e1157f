import type { Network } from '../network/network.js';
import { clockCost } from './clock-cost.js';
import { overlapsAt } from './overlaps.js';

/** What stands against an arrangement in which solids overlap: more than the worst clocks and the worst of misreadings together. */
const IMPOSSIBLE = 60;

/**
 * What stands against an arrangement, as −2 log of odds: the readings' χ², what the clocks have against it, and whether solids would
 * overlap. One rule for all arrangements, whether they fit alike to the last digit or only about alike.
 */
export const weightOf = (network: Network, chi2: number, x: Float64Array): number =>
  chi2 + clockCost(network, x) + (overlapsAt(network, x).length > 0 ? IMPOSSIBLE : 0);

/** Arrangements beside the likeliest with odds of less than one in twenty are no rivals to it. */
export const LIVE = 0.05;

/** Odds of each, from what stands against them; they add up to 1. */
export const oddsOf = (weights: readonly number[]): readonly number[] => {
  const least = Math.min(...weights);
  const shares = weights.map((w) => Math.exp((least - w) / 2));
  const sum = shares.reduce((a, b) => a + b, 0);
  return shares.map((s) => s / sum);
};
