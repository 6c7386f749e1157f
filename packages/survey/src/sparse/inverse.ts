import type { Factor, SymmetricMatrix } from './factor.js';

/**
 * The entries of the inverse that lie on L's pattern, from the last run of columns back, without the rest ever being formed:
 * Takahashi, Fagan & Chin 1973; Erisman & Tinney 1975, CACM 18(3) 177–179 (from memory). Rows and columns of dropped pivots are nought.
 */
export const selectedInverse = ({ pattern, lower, inversePivots }: Factor): SymmetricMatrix => {
  const { size, starts, rows, runs } = pattern;
  const inverse = new Float64Array(lower.length);
  const diagonal = new Float64Array(size);
  for (let run = runs.length - 2; run >= 0; run--) {
    const first = runs[run] as number;
    const end = runs[run + 1] as number;
    const below = starts[end - 1] as number;
    const width = end - first;
    const count = (starts[end] as number) - below;
    const side = width + count;
    // The inverse over the run's own columns and its rows, square; what belongs to the rows is known already.
    const block = new Float64Array(side * side);
    for (let a = 0; a < count; a++) {
      const column = rows[below + a] as number;
      const line = (width + a) * side + width;
      block[line + a] = diagonal[column] as number;
      let place = starts[column] as number;
      for (let b = a + 1; b < count; b++) {
        const row = rows[below + b] as number;
        while ((rows[place] as number) < row) place++;
        const z = inverse[place] as number;
        block[line + b] = z;
        block[(width + b) * side + width + a] = z;
      }
    }
    // Z(·, j) = −Z · L(·, j), and the pivot's own entry from it.
    for (let j = end - 1; j >= first; j--) {
      const own = j - first;
      const from = (starts[j] as number) - own - 1;
      if (inversePivots[j] === 0) continue;
      let pivot = inversePivots[j] as number;
      for (let i = own + 1; i < side; i++) {
        let z = 0;
        const line = i * side;
        for (let k = own + 1; k < side; k++) z -= (block[line + k] as number) * (lower[from + k] as number);
        block[line + own] = z;
        inverse[from + i] = z;
        pivot -= (lower[from + i] as number) * z;
      }
      for (let i = own + 1; i < side; i++) block[own * side + i] = block[i * side + own] as number;
      block[own * side + own] = pivot;
      diagonal[j] = pivot;
    }
  }
  return { pattern, diagonal, lower: inverse };
};
