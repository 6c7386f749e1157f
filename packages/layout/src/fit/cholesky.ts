import { CholeskyDecomposition, Matrix } from 'ml-matrix';

/** The Cholesky factor of a symmetric matrix, rounding errors between its halves evened out first; null where it is not positive definite. */
export const choleskyOf = (m: Matrix): CholeskyDecomposition | null => {
  const even = Matrix.zeros(m.rows, m.rows);
  for (let i = 0; i < m.rows; i++) {
    for (let j = 0; j <= i; j++) {
      const v = (m.get(i, j) + m.get(j, i)) / 2;
      even.set(i, j, v);
      even.set(j, i, v);
    }
  }
  const factor = new CholeskyDecomposition(even);
  return factor.isPositiveDefinite() ? factor : null;
};

/** log √|M| from its factor. */
export const logRootOf = (factor: CholeskyDecomposition): number =>
  factor.lowerTriangularMatrix.diagonal().reduce((s, d) => s + Math.log(d), 0);
