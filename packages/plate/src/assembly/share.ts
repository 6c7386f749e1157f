/** A share of trials with its standard error and the interval that holds the true chance 95 times in 100. */
export interface Share {
  readonly share: number;
  readonly standardError: number;
  readonly between: readonly [number, number];
}

const z = 1.959964;

/**
 * Wilson's score interval (E. B. Wilson 1927, J. Am. Stat. Assoc. 22, 209–212); the standard error is that of the share drawn
 * toward one half by z²/2 trials, so that it does not vanish where all or none of the trials went on.
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
