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
const logDivisions = (n: number): number => Math.log((weights[n] ?? 0) / whole);

/** Chance that every division carries a hole; else any lesser number is as likely as another. */
const FULL = 0.5;

const logNumber = (n: number, k: number): number =>
  k > n || k < 1 ? Number.NEGATIVE_INFINITY : k === n ? Math.log(FULL) : Math.log((1 - FULL) / (n - 1));

const range = (from: number, to: number): readonly number[] =>
  Array.from({ length: to - from + 1 }, (_, i) => from + i);

/** Log prior that k of the divisions of a circle are occupied, whatever their number: the count of holes is known before their layout is asked for. */
const logHoles = range(0, MOST_DIVISIONS).map((k) =>
  logSum(range(2, MOST_DIVISIONS).map((n) => logDivisions(n) + logNumber(n, k))),
);

/**
 * Log prior of one way of putting k named features into n places on a circle that is free to turn, given that there are k: n divisions and k of
 * them occupied over the same for every n, which places (all sets of k alike: C(n, k)), which feature in which (k!), and n ways to begin counting.
 */
const logPlacing = (n: number, k: number): number =>
  logDivisions(n) + logNumber(n, k) - (logHoles[k] ?? 0) - logChoose(n, k) - logFactorial(k) + Math.log(n);

const table = new Map<number, number>();

/**
 * Log prior of n divisions with k of them occupied, together with every finer division that says the same thing (5 of 5 is
 * also every other one of 10): the same drawing is one statement, and keeps its simplest words.
 */
export const logOccupied = (n: number, k: number): number => {
  const key = 100 * n + k;
  const known = table.get(key);
  if (known !== undefined) return known;
  const same: number[] = [];
  for (let m = n; m <= MOST_DIVISIONS; m += n) same.push(logPlacing(m, k));
  const made = logSum(same);
  table.set(key, made);
  return made;
};
