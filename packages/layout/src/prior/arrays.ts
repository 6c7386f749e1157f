import { logChoose, logFactorial, logSum } from './logs.js';

/** Chance that an array is one row rather than a rectangular pattern. */
const ROW = 0.3;
/** Chance that a pattern of rows and columns is square in pitch; the corners of a square lie on a circle too, and most drawings say that instead. */
const SQUARE = 0.3;
const CORNERS = 0.1;
const FULL = 0.5;
/** Most columns, or rows. */
const MOST = 24;

/** Log prior of m columns (or rows), m ≥ 2: 1 / (m (m − 1)), which adds up to 1. */
const logCount = (m: number): number => -Math.log(m * (m - 1));

const logShape = (columns: number, rows: number): number =>
  rows === 1 ? Math.log(ROW) + logCount(columns) : Math.log(1 - ROW) + logCount(columns) + logCount(rows);

/** Log prior that k of so many places are taken: all of them, or any lesser number alike. */
const logTaken = (places: number, k: number): number =>
  k > places || k < 1 ? Number.NEGATIVE_INFINITY : k === places ? Math.log(FULL) : Math.log((1 - FULL) / (places - 1));

const range = (from: number, to: number): readonly number[] =>
  Array.from({ length: to - from + 1 }, (_, i) => from + i);

const known = new Map<number, number>();

/** Log prior that k places of an array are taken, whatever its shape: as with divisions, the count of holes is known before their layout is asked for. */
const logHoles = (k: number): number => {
  const before = known.get(k);
  if (before !== undefined) return before;
  const sides = range(2, MOST);
  const made = logSum(
    sides.flatMap((columns) => [1, ...sides].map((rows) => logShape(columns, rows) + logTaken(columns * rows, k))),
  );
  known.set(k, made);
  return made;
};

/**
 * Log prior of an array of columns × rows with k named features in it, given that there are k: its shape, whether every place is taken (half) or
 * how many, over the same for every shape; which places; which feature stands where; and the ways to name the same array (either end of a row
 * first; four turns of a rectangular pattern).
 */
export const logArray = (columns: number, rows: number, square: boolean, k: number): number => {
  const places = columns * rows;
  const alike = columns === 2 && rows === 2 ? CORNERS : SQUARE;
  const shape = logShape(columns, rows) + (rows === 1 ? 0 : Math.log(square ? alike : 1 - alike));
  return (
    shape + logTaken(places, k) - logHoles(k) - logChoose(places, k) - logFactorial(k) + Math.log(rows === 1 ? 2 : 4)
  );
};
