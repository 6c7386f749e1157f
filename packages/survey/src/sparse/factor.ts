import type { FactorPattern } from './pattern.js';

/** A symmetric matrix on a pattern: diagonal and lower triangle, by position in elimination order. */
export interface SymmetricMatrix {
  readonly pattern: FactorPattern;
  readonly diagonal: Float64Array;
  readonly lower: Float64Array;
}

/**
 * L D Lᵀ of a matrix without the pivots that were `dropped` because they vanished: those are held at zero. The columns
 * of a point's x and y stand for its principal axes, the first the stiffer, so that a point held one way only loses
 * exactly the other.
 */
export interface Factor {
  readonly pattern: FactorPattern;
  readonly lower: Float64Array;
  /** 1 / pivot; 0 where dropped. */
  readonly inversePivots: Float64Array;
  /** Cosine and sine of each pair's first axis at 2j and 2j + 1. */
  readonly axes: Float64Array;
  readonly dropped: readonly number[];
  /** Positions with a pivot below −floor: the matrix is not positive there. */
  readonly negative: readonly number[];
}

/**
 * Right-looking L D Lᵀ by runs of columns: each finished run is taken off the columns of its rows, which by the fill
 * rule hold every row it needs. A pivot within ±`floor` is dropped, unless its position is in `keep`; `floor` is
 * measured against a matrix scaled so that its diagonal is about 1. Davis 2006, Direct Methods for Sparse Linear
 * Systems (from memory).
 */
export const factorise = (matrix: SymmetricMatrix, floor: number, keep: ReadonlySet<number> = new Set()): Factor => {
  const { pattern } = matrix;
  const { size, starts, runs, pairs } = pattern;
  const work: Work = {
    pattern,
    lower: Float64Array.from(matrix.lower),
    pivots: Float64Array.from(matrix.diagonal),
    axes: new Float64Array(2 * size),
    sums: new Float64Array(size),
    second: new Float64Array(size),
  };
  const { lower, pivots, axes } = work;
  const inversePivots = new Float64Array(size);
  const dropped: number[] = [];
  const negative: number[] = [];
  for (let run = 0; run + 1 < runs.length; run++) {
    const first = runs[run] as number;
    const end = runs[run + 1] as number;
    for (let j = first; j < end; j++) {
      if (pairs[j] === 1) turnPair(work, j);
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
      takeOffRun(work, j, end);
      for (let a = from; a < to; a++) lower[a] = (lower[a] as number) * inverse;
    }
    takeOffRows(work, first, end);
  }
  return { pattern, lower, inversePivots, axes, dropped, negative };
};

interface Work {
  readonly pattern: FactorPattern;
  readonly lower: Float64Array;
  readonly pivots: Float64Array;
  readonly axes: Float64Array;
  readonly sums: Float64Array;
  readonly second: Float64Array;
}

/** Columns j and j + 1, all earlier ones taken off, turned to the principal axes of their own 2 × 2 block. */
const turnPair = ({ pattern, lower, pivots, axes }: Work, j: number): void => {
  const { starts } = pattern;
  const at = starts[j] as number;
  const a = pivots[j] as number;
  const b = lower[at] as number;
  const d = pivots[j + 1] as number;
  const angle = Math.atan2(2 * b, a - d) / 2;
  const c = Math.cos(angle);
  const s = Math.sin(angle);
  const most = (a + d) / 2 + Math.hypot((a - d) / 2, b);
  axes[2 * j] = c;
  axes[2 * j + 1] = s;
  pivots[j] = most;
  pivots[j + 1] = most > 0 ? (a * d - b * b) / most : a + d - most;
  lower[at] = 0;
  for (let x = at + 1, y = starts[j + 1] as number; x < (starts[j + 1] as number); x++, y++) {
    const u = lower[x] as number;
    const v = lower[y] as number;
    lower[x] = c * u + s * v;
    lower[y] = c * v - s * u;
  }
};

/** Column j, not yet divided by its pivot, off the later columns of its own run: their rows lie side by side. */
const takeOffRun = ({ pattern, lower, pivots }: Work, j: number, end: number): void => {
  const { starts } = pattern;
  const from = starts[j] as number;
  for (let k = j + 1; k < end; k++) {
    const value = lower[from + k - j - 1] as number;
    if (value === 0) continue;
    const factor = value / (pivots[j] as number);
    pivots[k] = (pivots[k] as number) - factor * value;
    const to = starts[k + 1] as number;
    for (let a = starts[k] as number, b = from + k - j; a < to; a++, b++)
      lower[a] = (lower[a] as number) - factor * (lower[b] as number);
  }
};

/**
 * A finished run off the columns of the rows below it, the products of all its columns gathered before they are put in
 * place.
 */
const takeOffRows = (work: Work, first: number, end: number): void => {
  const { pattern, lower, pivots, sums, second } = work;
  const { starts } = pattern;
  const below = starts[end - 1] as number;
  const count = (starts[end] as number) - below;
  // Two rows and four columns at once: each entry is fetched once for both rows, each sum once for all four columns.
  for (let a = 0; a < count; a += 2) {
    const both = a + 1 < count;
    sums.fill(0, a, count);
    second.fill(0, a, count);
    let j = first;
    for (; j + 3 < end; j += 4) {
      const p = (starts[j] as number) + end - 1 - j;
      const q = (starts[j + 1] as number) + end - 2 - j;
      const r = (starts[j + 2] as number) + end - 3 - j;
      const s = (starts[j + 3] as number) + end - 4 - j;
      const [dp, dq] = [pivots[j] as number, pivots[j + 1] as number];
      const [dr, ds] = [pivots[j + 2] as number, pivots[j + 3] as number];
      const fp = (lower[p + a] as number) * dp;
      const fq = (lower[q + a] as number) * dq;
      const fr = (lower[r + a] as number) * dr;
      const fs = (lower[s + a] as number) * ds;
      const gp = both ? (lower[p + a + 1] as number) * dp : 0;
      const gq = both ? (lower[q + a + 1] as number) * dq : 0;
      const gr = both ? (lower[r + a + 1] as number) * dr : 0;
      const gs = both ? (lower[s + a + 1] as number) * ds : 0;
      for (let b = a; b < count; b++) {
        const lp = lower[p + b] as number;
        const lq = lower[q + b] as number;
        const lr = lower[r + b] as number;
        const ls = lower[s + b] as number;
        sums[b] = (sums[b] as number) + fp * lp + fq * lq + fr * lr + fs * ls;
        second[b] = (second[b] as number) + gp * lp + gq * lq + gr * lr + gs * ls;
      }
    }
    for (; j < end; j++) {
      const at = (starts[j] as number) + end - 1 - j;
      const f = (lower[at + a] as number) * (pivots[j] as number);
      const g = both ? (lower[at + a + 1] as number) * (pivots[j] as number) : 0;
      for (let b = a; b < count; b++) {
        const l = lower[at + b] as number;
        sums[b] = (sums[b] as number) + f * l;
        second[b] = (second[b] as number) + g * l;
      }
    }
    takeOffRow(work, below, a, count, sums);
    if (both) takeOffRow(work, below, a + 1, count, second);
  }
};

/** Sums of products off the column of row `a`, from the diagonal down. */
const takeOffRow = (
  { pattern, lower, pivots }: Work,
  below: number,
  a: number,
  count: number,
  sums: Float64Array,
): void => {
  const { starts, rows } = pattern;
  const column = rows[below + a] as number;
  pivots[column] = (pivots[column] as number) - (sums[a] as number);
  let place = starts[column] as number;
  for (let b = a + 1; b < count; b++) {
    const row = rows[below + b] as number;
    while ((rows[place] as number) < row) place++;
    lower[place] = (lower[place] as number) - (sums[b] as number);
  }
};

/** The values at j and j + 1 onto the pair's axes (`way` 1), or back from them (−1). */
const turnValues = ({ axes }: Factor, b: Float64Array, j: number, way: 1 | -1): void => {
  const c = axes[2 * j] as number;
  const s = way * (axes[2 * j + 1] as number);
  const u = b[j] as number;
  const v = b[j + 1] as number;
  b[j] = c * u + s * v;
  b[j + 1] = c * v - s * u;
};

/** x with L D Lᵀ x = b in elimination order; dropped positions come out 0. `b` is overwritten with x. */
export const solveInPlace = (factor: Factor, b: Float64Array): Float64Array => {
  const { pattern, lower, inversePivots } = factor;
  const { size, starts, rows, pairs } = pattern;
  for (let j = 0; j < size; j++) {
    if (pairs[j] === 1) turnValues(factor, b, j, 1);
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

/**
 * x with Lᵀ x = b, in place; b on the axes of each pair, x not. `last`: where b is zero behind this position, so is x.
 */
export const backSubstitute = (factor: Factor, b: Float64Array, last = factor.pattern.size - 1): Float64Array => {
  const { pattern, lower } = factor;
  const { starts, rows, pairs } = pattern;
  for (let j = last; j >= 0; j--) {
    let sum = b[j] as number;
    // A pair's own off-diagonal entry is zero, so that its second value may be turned back together with its first.
    for (let a = starts[j] as number; a < (starts[j + 1] as number); a++)
      sum -= (lower[a] as number) * (b[rows[a] as number] as number);
    b[j] = sum;
    if (pairs[j] === 1) turnValues(factor, b, j, -1);
  }
  return b;
};
