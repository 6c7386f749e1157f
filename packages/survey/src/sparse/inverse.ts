import type { Factor, SymmetricMatrix } from './factor.js';

/**
 * The entries of the inverse that lie on L's pattern, from the last column back, without the rest ever being formed:
 * Takahashi, Fagan & Chin 1973; Erisman & Tinney 1975, CACM 18(3) 177–179 (from memory).
 * Rows and columns of dropped pivots are nought.
 */
export const selectedInverse = ({ pattern, lower, inversePivots }: Factor): SymmetricMatrix => {
  const { size, starts, rows } = pattern;
  const inverse = new Float64Array(lower.length);
  const diagonal = new Float64Array(size);
  const work = new Float64Array(size);
  const here = new Float64Array(size);
  for (let j = size - 1; j >= 0; j--) {
    const from = starts[j] as number;
    const to = starts[j + 1] as number;
    for (let a = from; a < to; a++) here[rows[a] as number] = lower[a] as number;
    // Z(·, j) = −Z · L(·, j), Z symmetric, each stored entry of Z used both ways.
    for (let a = from; a < to; a++) {
      const i = rows[a] as number;
      const li = lower[a] as number;
      let sum = (work[i] as number) - (diagonal[i] as number) * li;
      for (let b = starts[i] as number; b < (starts[i + 1] as number); b++) {
        const k = rows[b] as number;
        const z = inverse[b] as number;
        sum -= z * (here[k] as number);
        work[k] = (work[k] as number) - z * li;
      }
      work[i] = sum;
    }
    let pivot = inversePivots[j] as number;
    for (let a = from; a < to; a++) {
      const i = rows[a] as number;
      const z = work[i] as number;
      inverse[a] = z;
      pivot -= (lower[a] as number) * z;
    }
    diagonal[j] = inversePivots[j] === 0 ? 0 : pivot;
    // `work` was touched at every row of the columns used, all of which come after j.
    for (let a = from; a < to; a++) {
      const i = rows[a] as number;
      here[i] = 0;
      work[i] = 0;
      for (let b = starts[i] as number; b < (starts[i + 1] as number); b++) work[rows[b] as number] = 0;
    }
  }
  return { pattern, diagonal, lower: inverse };
};
