import { logChoose, logFactorial, logSum } from './length.js';

export const MOST_DIVISIONS = 36;

const divisors = (n: number): number => {
  let count = 0;
  for (let k = 1; k <= n; k++) if (n % k === 0) count++;
  return count;
};

const weights = Array.from({ length: MOST_DIVISIONS + 1 }, (_, n) => (n < 2 ? 0 : divisors(n) / n));
const whole = weights.reduce((a, b) => a + b, 0);

/**
 * Log prior of n equal divisions, 2..36: ∝ (number of divisors of n) / n; few and easily halved or thirded come first.
 */
const logDivisions = (n: number): number => Math.log((weights[n] ?? 0) / whole);

/** Chance that every place carries a hole; else any lesser number is as likely as another. */
const FULL = 0.5;

/** Log prior that k of so many places are taken: all of them, or any lesser number alike. */
const logTaken = (places: number, k: number): number =>
  k > places || k < 1 ? Number.NEGATIVE_INFINITY : k === places ? Math.log(FULL) : Math.log((1 - FULL) / (places - 1));

const range = (from: number, to: number): readonly number[] =>
  Array.from({ length: to - from + 1 }, (_, i) => from + i);

/**
 * Log prior that k of the divisions of a circle are occupied, whatever their number: the count of holes is known before
 * their layout is asked for.
 */
const logHolesOnCircle = range(0, MOST_DIVISIONS).map((k) =>
  logSum(range(2, MOST_DIVISIONS).map((n) => logDivisions(n) + logTaken(n, k))),
);

/**
 * Log prior of one way of putting k named features into n places on a circle that is free to turn, given that there are
 * k: n divisions and k of them occupied over the same for every n, which places (all sets of k alike: C(n, k)), which
 * feature in which (k!), and n ways to begin counting.
 */
const logPlacing = (n: number, k: number): number =>
  logDivisions(n) + logTaken(n, k) - (logHolesOnCircle[k] ?? 0) - logChoose(n, k) - logFactorial(k) + Math.log(n);

const table = new Map<number, number>();

/**
 * Log prior of n divisions with k of them occupied, together with every finer division that says the same thing (5 of 5
 * is also every other one of 10): the same drawing is one statement, and keeps its simplest words.
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

/** Chance that an array is one row rather than a rectangular pattern. */
const ROW = 0.3;
/**
 * Chance that a pattern of rows and columns is square in pitch; the corners of a square lie on a circle too, and most
 * drawings say that instead.
 */
const SQUARE = 0.3;
const CORNERS = 0.1;
/** Most columns, or rows. */
const MOST = 24;

/** Log prior of m columns (or rows), m ≥ 2: 1 / (m (m − 1)), which adds up to 1. */
const logCount = (m: number): number => -Math.log(m * (m - 1));

const logShape = (columns: number, rows: number): number =>
  rows === 1 ? Math.log(ROW) + logCount(columns) : Math.log(1 - ROW) + logCount(columns) + logCount(rows);

const holesOfArray = new Map<number, number>();

/**
 * Log prior that k places of an array are taken, whatever its shape: as with divisions, the count of holes is known
 * before their layout is asked for.
 */
const logHolesOfArray = (k: number): number => {
  const before = holesOfArray.get(k);
  if (before !== undefined) return before;
  const sides = range(2, MOST);
  const made = logSum(
    sides.flatMap((columns) => [1, ...sides].map((rows) => logShape(columns, rows) + logTaken(columns * rows, k))),
  );
  holesOfArray.set(k, made);
  return made;
};

/**
 * Log prior of an array of columns × rows with k named features in it, given that there are k: its shape, whether every
 * place is taken (half) or how many, over the same for every shape; which places; which feature stands where; and the
 * ways to name the same array (either end of a row first; four turns of a rectangular pattern).
 */
export const logArray = (columns: number, rows: number, square: boolean, k: number): number => {
  const places = columns * rows;
  const alike = columns === 2 && rows === 2 ? CORNERS : SQUARE;
  const shape = logShape(columns, rows) + (rows === 1 ? 0 : Math.log(square ? alike : 1 - alike));
  return (
    shape +
    logTaken(places, k) -
    logHolesOfArray(k) -
    logChoose(places, k) -
    logFactorial(k) +
    Math.log(rows === 1 ? 2 : 4)
  );
};
