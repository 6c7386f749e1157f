import { normalQuantile } from '@fayplate/core';

/** |w| above this makes a reading suspect: two-sided α = 0.001, the level of data snooping in W. Baarda, A Testing Procedure for Use in Geodetic Networks, Delft 1968. */
export const CRITICAL = 3.29;
export const ALPHA = 0.001;

/** δ₀: an error of δ₀ σ/√r is found 80 times in 100 at α (Baarda's non-centrality, √17.07). */
export const DETECTABLE = normalQuantile(1 - ALPHA / 2) + normalQuantile(0.8);

/** The smallest error that would be found so, in the unit of `sigma`; null where nothing checks the reading. */
export const detectableError = (sigma: number, redundancy: number): number | null =>
  redundancy > 0 ? (DETECTABLE * sigma) / Math.sqrt(redundancy) : null;
