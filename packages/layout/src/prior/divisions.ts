import { logChoose, logFactorial, logSum } from './logs.js';

export const MOST_DIVISIONS = 36;

const divisors = (n: number): number => {
  let count = 0;
  for (let k = 1; k <= n; k++) if (n % k === 0) count++;
  return count;
};

const weights = Array.from({ length: MOST_DIVISIONS + 1 }, (_, n) => (n < 2 ? 0 : divisors(n) / n));
const whole = weights.reduce((a, b) => a + b, 0);

/** Log prior of n equal divisions, 2..36: ∝ (number of divisors of n) / n; few and easily halved or thirded come first. */
export const logDivisions = (n: number): number => Math.log((weights[n] ?? 0) / whole);

/** Chance that every division carries a hole; else any lesser number is as likely as another. */
const FULL = 0.5;

/**
 * Log prior of one way of putting k named features into n places on a circle that is free to turn: the number of occupied places
 * (half: all of them), which places (all sets of k alike: C(n, k)), which feature in which (k!), and n ways to begin counting.
 */
const logPlacing = (n: number, k: number): number =>
  (k === n ? Math.log(FULL) : Math.log((1 - FULL) / (n - 1))) - logChoose(n, k) - logFactorial(k) + Math.log(n);

/**
 * Log prior of n divisions with k of them occupied, together with every finer division that says the same thing (5 of 5 is
 * also every other one of 10): the same drawing is one statement, and keeps its simplest words.
 */
export const logOccupied = (n: number, k: number): number => {
  const same: number[] = [];
  for (let m = n; m <= MOST_DIVISIONS; m += n) same.push(logDivisions(m) + logPlacing(m, k));
  return logSum(same);
};
