import type { Factor, SymmetricMatrix } from './factor.js';

/**
 * The entries of the inverse that lie on L's pattern, from the last run of columns back, without the rest ever being
 * formed: Takahashi, Fagan & Chin 1973; Erisman & Tinney 1975, CACM 18(3) 177–179 (from memory). Rows and columns of
 * dropped pivots are zero.
 */
export const selectedInverse = ({ pattern, lower, inversePivots, axes }: Factor): SymmetricMatrix => {
  const { size, starts, rows, runs, pairs } = pattern;
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
    // Z(·, j) = −Z · L(·, j), and the pivot's own entry from it; a pair's two are then turned back from its axes.
    for (let own = width - 1; own >= 0; own--) {
      const from = (starts[first + own] as number) - own - 1;
      let pivot = inversePivots[first + own] as number;
      if (pivot !== 0) {
        for (let i = own + 1; i < side; i++) {
          let z = 0;
          const line = i * side;
          for (let k = own + 1; k < side; k++) z -= (block[line + k] as number) * (lower[from + k] as number);
          block[line + own] = z;
          pivot -= (lower[from + i] as number) * z;
        }
        for (let i = own + 1; i < side; i++) block[own * side + i] = block[i * side + own] as number;
        block[own * side + own] = pivot;
      }
      if (pairs[first + own] === 1)
        turnBack(block, side, own, axes[2 * (first + own)] as number, axes[2 * (first + own) + 1] as number);
    }
    for (let own = 0; own < width; own++) {
      const from = (starts[first + own] as number) - own - 1;
      for (let i = own + 1; i < side; i++) inverse[from + i] = block[i * side + own] as number;
      diagonal[first + own] = block[own * side + own] as number;
    }
  }
  return { pattern, diagonal, lower: inverse };
};

/** Rows and columns `own` and `own + 1` of a symmetric square from a pair's axes to its x and y. */
const turnBack = (block: Float64Array, side: number, own: number, c: number, s: number): void => {
  for (let i = own; i < side; i++) {
    const at = i * side + own;
    const u = block[at] as number;
    const v = block[at + 1] as number;
    block[at] = c * u - s * v;
    block[at + 1] = s * u + c * v;
  }
  for (let i = own; i < side; i++) {
    const [first, second] = [own * side + i, (own + 1) * side + i];
    const u = i < own + 2 ? (block[first] as number) : 0;
    const v = i < own + 2 ? (block[second] as number) : 0;
    block[first] = i < own + 2 ? c * u - s * v : (block[i * side + own] as number);
    block[second] = i < own + 2 ? s * u + c * v : (block[i * side + own + 1] as number);
  }
};
