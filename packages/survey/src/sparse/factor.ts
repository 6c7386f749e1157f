import type { Pattern } from './pattern.js';

/** A symmetric matrix on a pattern: diagonal and lower triangle, by position in elimination order. */
export interface SymmetricMatrix {
  readonly pattern: Pattern;
  readonly diagonal: Float64Array;
  readonly lower: Float64Array;
}

/** L D Lᵀ of a matrix without the rows and columns that were `dropped` (positions whose pivot vanished): those are held at nought. */
export interface Factor {
  readonly pattern: Pattern;
  readonly lower: Float64Array;
  /** 1 / pivot; 0 where dropped. */
  readonly inversePivots: Float64Array;
  readonly dropped: readonly number[];
  /** Positions with a pivot below −floor: the matrix is not positive there. */
  readonly negative: readonly number[];
}

/**
 * Right-looking L D Lᵀ: each finished column is taken off the columns of its rows, which by the fill rule hold every row it needs.
 * A pivot within ±`floor` is dropped; `floor` is measured against a matrix scaled so that its diagonal is about 1.
 * Davis 2006, Direct Methods for Sparse Linear Systems (from memory).
 */
export const factorise = (matrix: SymmetricMatrix, floor: number, keep: ReadonlySet<number> = new Set()): Factor => {
  const { pattern } = matrix;
  const { size, starts, rows } = pattern;
  const lower = Float64Array.from(matrix.lower);
  const pivots = Float64Array.from(matrix.diagonal);
  const inversePivots = new Float64Array(size);
  const work = new Float64Array(size);
  const dropped: number[] = [];
  const negative: number[] = [];
  for (let j = 0; j < size; j++) {
    const from = starts[j] as number;
    const to = starts[j + 1] as number;
    const pivot = pivots[j] as number;
    if (!(Math.abs(pivot) > floor) && !(keep.has(j) && pivot > 0)) {
      dropped.push(j);
      lower.fill(0, from, to);
      continue;
    }
    if (pivot < 0) negative.push(j);
    const inverse = 1 / pivot;
    inversePivots[j] = inverse;
    for (let a = from; a < to; a++) work[rows[a] as number] = lower[a] as number;
    for (let a = from; a < to; a++) {
      const column = rows[a] as number;
      const value = lower[a] as number;
      if (value === 0) continue;
      const factor = value * inverse;
      pivots[column] = (pivots[column] as number) - factor * value;
      for (let b = starts[column] as number; b < (starts[column + 1] as number); b++) {
        lower[b] = (lower[b] as number) - factor * (work[rows[b] as number] as number);
      }
    }
    for (let a = from; a < to; a++) {
      work[rows[a] as number] = 0;
      lower[a] = (lower[a] as number) * inverse;
    }
  }
  return { pattern, lower, inversePivots, dropped, negative };
};

/** x with L D Lᵀ x = b in elimination order; dropped positions come out 0. `b` is overwritten with x. */
export const solveInPlace = (factor: Factor, b: Float64Array): Float64Array => {
  const { pattern, lower, inversePivots } = factor;
  const { size, starts, rows } = pattern;
  for (let j = 0; j < size; j++) {
    const value = b[j] as number;
    if (value === 0 || inversePivots[j] === 0) continue;
    for (let a = starts[j] as number; a < (starts[j + 1] as number); a++) {
      const row = rows[a] as number;
      b[row] = (b[row] as number) - (lower[a] as number) * value;
    }
  }
  for (let j = 0; j < size; j++) b[j] = (b[j] as number) * (inversePivots[j] as number);
  return backSubstitute(factor, b);
};

/** x with Lᵀ x = b, in place. */
export const backSubstitute = (factor: Factor, b: Float64Array): Float64Array => {
  const { pattern, lower } = factor;
  const { size, starts, rows } = pattern;
  for (let j = size - 1; j >= 0; j--) {
    let sum = b[j] as number;
    for (let a = starts[j] as number; a < (starts[j + 1] as number); a++) sum -= (lower[a] as number) * (b[rows[a] as number] as number);
    b[j] = sum;
  }
  return b;
};
