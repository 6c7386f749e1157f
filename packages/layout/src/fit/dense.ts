/**
 * Small dense symmetric systems, row by row in one array. A face is weighed by some hundreds of adjustments of five to
 * forty unknowns; a general matrix class spends most of that time on making objects.
 */
export interface Factor {
  readonly size: number;
  /** Lower triangle of L, A = L Lᵀ. */
  readonly lower: Float64Array;
  /** log √|A|. */
  readonly logRoot: number;
}

/** Cholesky factor of the lower triangle of `a` (size × size); null where it is not positive definite. */
export const factorOf = (a: Float64Array, size: number): Factor | null => {
  const lower = new Float64Array(size * size);
  let logRoot = 0;
  for (let i = 0; i < size; i++) {
    for (let j = 0; j <= i; j++) {
      let s = a[i * size + j] as number;
      for (let k = 0; k < j; k++) s -= (lower[i * size + k] as number) * (lower[j * size + k] as number);
      if (i === j) {
        // Cancelled to nothing against what was there: singular to rounding.
        if (!(s > 1e-14 * (a[i * size + i] as number))) return null;
        lower[i * size + i] = Math.sqrt(s);
        logRoot += Math.log(s) / 2;
      } else lower[i * size + j] = s / (lower[j * size + j] as number);
    }
  }
  return { size, lower, logRoot };
};

/**
 * Factor of a covariance, which rounding may have left with a slightly negative direction where some others are hardly
 * known at all: as little as serves is added to its diagonal, from a millionth of a millionth of its mean upward.
 */
export const firmFactor = (a: Float64Array, size: number): Factor => {
  let trace = 0;
  for (let i = 0; i < size; i++) trace += a[i * (size + 1)] as number;
  for (let share = 0; share <= 1; share = share === 0 ? 1e-12 : share * 10) {
    const firm = Float64Array.from(a);
    for (let i = 0; i < size; i++) firm[i * (size + 1)] = (firm[i * (size + 1)] as number) + share * (trace / size);
    const factor = factorOf(firm, size);
    if (factor !== null) return factor;
  }
  throw new Error('a covariance is not one: its mean variance is not above zero');
};

/** x of A x = b. */
export const solveWith = ({ size, lower }: Factor, b: Float64Array): Float64Array => {
  const x = Float64Array.from(b);
  for (let i = 0; i < size; i++) {
    let s = x[i] as number;
    for (let k = 0; k < i; k++) s -= (lower[i * size + k] as number) * (x[k] as number);
    x[i] = s / (lower[i * size + i] as number);
  }
  for (let i = size - 1; i >= 0; i--) {
    let s = x[i] as number;
    for (let k = i + 1; k < size; k++) s -= (lower[k * size + i] as number) * (x[k] as number);
    x[i] = s / (lower[i * size + i] as number);
  }
  return x;
};

/** A⁻¹, full. */
export const inverseOf = ({ size, lower }: Factor): Float64Array => {
  // L⁻¹ first, then its own product: half the work of solving for each column.
  const inv = new Float64Array(size * size);
  for (let j = 0; j < size; j++) {
    inv[j * size + j] = 1 / (lower[j * size + j] as number);
    for (let i = j + 1; i < size; i++) {
      let s = 0;
      for (let k = j; k < i; k++) s += (lower[i * size + k] as number) * (inv[k * size + j] as number);
      inv[i * size + j] = -s / (lower[i * size + i] as number);
    }
  }
  const out = new Float64Array(size * size);
  for (let i = 0; i < size; i++) {
    for (let j = 0; j <= i; j++) {
      let s = 0;
      for (let k = i; k < size; k++) s += (inv[k * size + i] as number) * (inv[k * size + j] as number);
      out[i * size + j] = s;
      out[j * size + i] = s;
    }
  }
  return out;
};
