import { logChoose, logFactorial } from './logs.js';

/** Chance that an array is one row rather than a rectangular pattern, and that a pattern of rows and columns is square in pitch. */
const ROW = 0.3;
const SQUARE = 0.3;
const FULL = 0.5;

/** Log prior of m columns (or rows), m ≥ 2: 1 / (m (m − 1)), which adds up to 1. */
const logCount = (m: number): number => -Math.log(m * (m - 1));

/**
 * Log prior of an array of columns × rows with k named features in it: its shape, whether every place is taken (half), which are, which feature
 * stands where, and the ways to name the same array (either end of a row first; four turns of a rectangular pattern).
 */
export const logArray = (columns: number, rows: number, square: boolean, k: number): number => {
  const places = columns * rows;
  const shape = rows === 1 ? Math.log(ROW) + logCount(columns) + Math.log(2) : Math.log(1 - ROW) + logCount(columns) + logCount(rows) + Math.log(square ? SQUARE : 1 - SQUARE);
  const taken = k === places ? Math.log(FULL) : Math.log((1 - FULL) / (places - 1)) - logChoose(places, k);
  return shape + taken - logFactorial(k) + Math.log(rows === 1 ? 2 : 4);
};
