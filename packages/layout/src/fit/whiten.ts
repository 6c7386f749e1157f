import { Matrix } from 'ml-matrix';
import type { Measured } from '../measured/points.js';
import { choleskyOf, logRootOf } from './cholesky.js';

/** Inverse square root of a joint covariance: rows × residuals are independent with variance 1. */
export interface Whitening {
  /** Indices of the measured points, ascending; rows go x, y of each. */
  readonly indices: readonly number[];
  /** L⁻¹ of C = L Lᵀ, lower triangular. */
  readonly root: Matrix;
  /** log √|C|. */
  readonly logVolume: number;
}

const lowerInverse = (l: Matrix): Matrix => {
  const n = l.rows;
  const inv = Matrix.zeros(n, n);
  for (let j = 0; j < n; j++) {
    inv.set(j, j, 1 / l.get(j, j));
    for (let i = j + 1; i < n; i++) {
      let s = 0;
      for (let k = j; k < i; k++) s += l.get(i, k) * inv.get(k, j);
      inv.set(i, j, -s / l.get(i, i));
    }
  }
  return inv;
};

/** Whitening of some of the measured points, the others left free; kept for each set asked for. */
export const whitener = (measured: Measured): ((indices: readonly number[]) => Whitening) => {
  const kept = new Map<string, Whitening>();
  return (wanted) => {
    const indices = [...wanted].sort((a, b) => a - b);
    const key = indices.join(' ');
    const known = kept.get(key);
    if (known !== undefined) return known;
    const rows = indices.flatMap((i) => [2 * i, 2 * i + 1]);
    const cholesky = choleskyOf(measured.covariance.selection(rows, rows));
    if (cholesky === null) throw new Error('the joint covariance of these centres is not positive definite');
    const made: Whitening = { indices, root: lowerInverse(cholesky.lowerTriangularMatrix), logVolume: logRootOf(cholesky) };
    kept.set(key, made);
    return made;
  };
};
