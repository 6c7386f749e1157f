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
        block[line + b] = inverse[place] as number;
      }
    }
    mirror(block, side, width);
    // Z(·, j) = −Z · L(·, j), and the pivot's own entry from it; a pair's two are then turned back from its axes.
    const products = rowProducts({ starts, lower }, block, first, width, count);
    for (let own = width - 1; own >= 0; own--) {
      const from = (starts[first + own] as number) - own - 1;
      let pivot = inversePivots[first + own] as number;
      if (pivot !== 0) {
        for (let i = own + 1; i < side; i++) {
          const line = i * side;
          let z = i < width ? 0 : -(products[own * count + i - width] as number);
          const end = i < width ? side : width;
          for (let k = own + 1; k < end; k++) z -= (block[line + k] as number) * (lower[from + k] as number);
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

const TILE = 32;

/**
 * What stands above the diagonal of a square, from row and column `first` on, copied below it; by tiles that a cache
 * holds.
 */
const mirror = (block: Float64Array, side: number, first: number): void => {
  for (let top = first; top < side; top += TILE)
    for (let left = top; left < side; left += TILE)
      for (let a = top; a < Math.min(top + TILE, side); a++)
        for (let b = Math.max(left, a + 1); b < Math.min(left + TILE, side); b++)
          block[b * side + a] = block[a * side + b] as number;
};

/**
 * The part of the inverse that belongs to a run's rows, times the rows of each of the run's columns; column by column.
 * Four columns at once, so that a wide block is fetched once for them all.
 */
const rowProducts = (
  { starts, lower }: { readonly starts: Int32Array; readonly lower: Float64Array },
  block: Float64Array,
  first: number,
  width: number,
  count: number,
): Float64Array => {
  const side = width + count;
  const out = new Float64Array(width * count);
  /** Place in `lower` of a column's first row below the run. */
  const rowsOf = (own: number): number => (starts[first + own] as number) + width - own - 1;
  for (let i = 0; i < count; i++) {
    const line = (width + i) * side + width;
    for (let own = 0; own < width; own += 4) {
      const [p, q] = [rowsOf(own), rowsOf(Math.min(own + 1, width - 1))];
      const [r, s] = [rowsOf(Math.min(own + 2, width - 1)), rowsOf(Math.min(own + 3, width - 1))];
      let [zp, zq, zr, zs] = [0, 0, 0, 0];
      for (let k = 0; k < count; k++) {
        const z = block[line + k] as number;
        zp += z * (lower[p + k] as number);
        zq += z * (lower[q + k] as number);
        zr += z * (lower[r + k] as number);
        zs += z * (lower[s + k] as number);
      }
      out[own * count + i] = zp;
      if (own + 1 < width) out[(own + 1) * count + i] = zq;
      if (own + 2 < width) out[(own + 2) * count + i] = zr;
      if (own + 3 < width) out[(own + 3) * count + i] = zs;
    }
  }
  return out;
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
