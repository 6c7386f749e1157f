import type { Point } from '@fayplate/core';
import { type CholeskyDecomposition, Matrix } from 'ml-matrix';
import { choleskyOf, logRootOf } from './cholesky.js';
import { type Construction, positionOf, slopesOf } from './construction.js';
import type { Whitening } from './whiten.js';

export interface Adjusted {
  readonly parameters: readonly number[];
  /** Of the parameters: (Jᵀ C⁻¹ J)⁻¹. */
  readonly covariance: Matrix;
  readonly chi2: number;
  /**
   * Log of the marginal likelihood of the centres, the parameters integrated out about their best values (Laplace):
   * −χ²/2 − log √|2π C| + log π(best) + (d/2) log 2π + log √|covariance|.
   */
  readonly logEvidence: number;
  readonly converged: boolean;
}

const TURNS = 25;

/** Least-squares adjustment of a construction to the measured centres on their joint covariance, by Gauss–Newton with step halving. */
export const adjust = (construction: Construction, points: readonly Point[], whitening: Whitening): Adjusted | null => {
  const { indices, root } = whitening;
  const m = 2 * indices.length;
  const d = construction.start.length;
  const places = indices.map((i) => {
    const place = construction.places.get(i);
    if (place === undefined) throw new RangeError(`adjust: no place for point ${i}`);
    return place;
  });
  const white = (r: Float64Array): Float64Array => {
    const w = new Float64Array(m);
    for (let i = 0; i < m; i++) {
      let s = 0;
      for (let k = 0; k <= i; k++) s += root.get(i, k) * (r[k] ?? 0);
      w[i] = s;
    }
    return w;
  };
  const misfit = (p: readonly number[]): { readonly w: Float64Array; readonly chi2: number } => {
    const r = new Float64Array(m);
    for (const [k, place] of places.entries()) {
      const at = positionOf(place, p);
      const seen = points[indices[k] ?? -1];
      if (seen === undefined) throw new RangeError('adjust: a point is missing');
      r[2 * k] = seen.x - at.x;
      r[2 * k + 1] = seen.y - at.y;
    }
    const w = white(r);
    return { w, chi2: w.reduce((s, v) => s + v * v, 0) };
  };
  let parameters = [...construction.start];
  let now = misfit(parameters);
  let converged = false;
  let factor: CholeskyDecomposition | null = null;
  for (let turn = 0; turn < TURNS && !converged; turn++) {
    const j = Matrix.zeros(m, d);
    for (const [k, place] of places.entries()) {
      slopesOf(place, parameters, (row, p, slope) => j.set(2 * k + row, p, j.get(2 * k + row, p) + slope));
    }
    const wj = root.mmul(j);
    const t = wj.transpose();
    factor = choleskyOf(t.mmul(wj));
    if (factor === null) return null;
    const step = factor.solve(t.mmul(Matrix.columnVector(now.w))).to1DArray();
    const gain = now.w.length === 0 ? 0 : step.reduce((s, v, i) => s + v * t.getRow(i).reduce((q, x, r) => q + x * (now.w[r] ?? 0), 0), 0);
    let k = 1;
    let next = parameters;
    let then = now;
    do {
      next = parameters.map((v, i) => v + k * (step[i] ?? 0));
      then = misfit(next);
      k /= 2;
    } while (then.chi2 > now.chi2 + 1e-12 * (1 + now.chi2) && k > 1e-6);
    if (then.chi2 <= now.chi2 + 1e-12 * (1 + now.chi2)) {
      parameters = next;
      now = then;
    }
    converged = Math.abs(gain) < 1e-8;
  }
  if (factor === null) return null;
  return {
    parameters,
    covariance: factor.solve(Matrix.eye(d)),
    chi2: now.chi2,
    logEvidence: -now.chi2 / 2 - whitening.logVolume + construction.logDensity + ((d - m) / 2) * Math.log(2 * Math.PI) - logRootOf(factor),
    converged,
  };
};
