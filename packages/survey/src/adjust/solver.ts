import { type Factor, type SymmetricMatrix, factorise, solveInPlace } from '../sparse/factor.js';

/** Solves in unknowns what is factored in elimination order and scaled: x = S · F⁻¹ · S b. */
export const solveScaled = (factor: Factor, scales: Float64Array, b: Float64Array): Float64Array => {
  const { order, size } = factor.pattern;
  const work = new Float64Array(size);
  for (let k = 0; k < size; k++) {
    const u = order[k] as number;
    work[k] = (b[u] as number) * (scales[u] as number);
  }
  solveInPlace(factor, work);
  const x = new Float64Array(size);
  for (let k = 0; k < size; k++) {
    const u = order[k] as number;
    x[u] = (work[k] as number) * (scales[u] as number);
  }
  return x;
};

/** The same matrix with `damping` added to a diagonal that is about 1 (Levenberg 1944, Marquardt 1963). */
export const damped = (matrix: SymmetricMatrix, damping: number): SymmetricMatrix =>
  damping === 0 ? matrix : { ...matrix, diagonal: matrix.diagonal.map((d) => d + damping) };

/** One damped step; pivots within ±`floor` of zero are held still. */
export const stepFrom = (
  matrix: SymmetricMatrix,
  damping: number,
  floor: number,
  scales: Float64Array,
  b: Float64Array,
): { readonly step: Float64Array; readonly factor: Factor } => {
  const factor = factorise(damped(matrix, damping), floor);
  return { step: solveScaled(factor, scales, b), factor };
};
