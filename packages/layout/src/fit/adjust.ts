import type { Point } from '@fayplate/core';
import type { Information } from '../measured.js';
import { type Construction, positionOf, slopesOf } from './construction.js';
import { type Factor, factorOf, inverseOf, solveWith } from './dense.js';

export interface Adjusted {
  readonly parameters: readonly number[];
  /** Of the parameters, (Jᵀ C⁻¹ J)⁻¹, row by row. */
  readonly covariance: Float64Array;
  readonly chi2: number;
  /**
   * Log of the marginal likelihood of the centres, the parameters integrated out about their best values (Laplace):
   * −χ²/2 − log √|2π C| + log π(best) + (d/2) log 2π + log √|covariance|.
   */
  readonly logEvidence: number;
  readonly converged: boolean;
}

const TURNS = 25;

interface Slopes {
  /** Row, parameter and slope of each entry of J that is not zero. */
  readonly rows: number[];
  readonly columns: number[];
  readonly values: number[];
}

const slopesAt = (construction: Construction, indices: readonly number[], parameters: readonly number[]): Slopes => {
  const slopes: Slopes = { rows: [], columns: [], values: [] };
  for (const [k, i] of indices.entries()) {
    const place = construction.places.get(i);
    if (place === undefined) throw new RangeError(`adjust: no place for point ${i}`);
    slopesOf(place, parameters, (row, p, slope) => {
      slopes.rows.push(2 * k + row);
      slopes.columns.push(p);
      slopes.values.push(slope);
    });
  }
  return slopes;
};

/**
 * Least-squares adjustment of a construction to the measured centres on their joint covariance, by Gauss–Newton with
 * step halving; null where parameters are undecided.
 */
export const adjust = (
  construction: Construction,
  points: readonly Point[],
  information: Information,
): Adjusted | null => {
  const { indices, inverse: n } = information;
  const m = 2 * indices.length;
  const d = construction.start.length;
  const misfit = (p: readonly number[]): { readonly gradient: Float64Array; readonly chi2: number } => {
    const r = new Float64Array(m);
    for (const [k, i] of indices.entries()) {
      const place = construction.places.get(i);
      const seen = points[i];
      if (place === undefined || seen === undefined) throw new RangeError(`adjust: no place for point ${i}`);
      const at = positionOf(place, p);
      r[2 * k] = seen.x - at.x;
      r[2 * k + 1] = seen.y - at.y;
    }
    const gradient = new Float64Array(m);
    let chi2 = 0;
    for (let i = 0; i < m; i++) {
      let s = 0;
      for (let k = 0; k < m; k++) s += (n[i * m + k] as number) * (r[k] as number);
      gradient[i] = s;
      chi2 += s * (r[i] as number);
    }
    return { gradient, chi2 };
  };
  let parameters = construction.start;
  let now = misfit(parameters);
  let converged = false;
  let factor: Factor | null = null;
  for (let turn = 0; turn < TURNS && !converged; turn++) {
    const { rows, columns, values } = slopesAt(construction, indices, parameters);
    const nj = new Float64Array(m * d);
    const g = new Float64Array(d);
    for (let e = 0; e < rows.length; e++) {
      const row = rows[e] as number;
      const p = columns[e] as number;
      const v = values[e] as number;
      for (let i = 0; i < m; i++) nj[i * d + p] = (nj[i * d + p] as number) + v * (n[row * m + i] as number);
      g[p] = (g[p] as number) + v * (now.gradient[row] as number);
    }
    const h = new Float64Array(d * d);
    for (let e = 0; e < rows.length; e++) {
      const row = rows[e] as number;
      const p = columns[e] as number;
      const v = values[e] as number;
      for (let q = 0; q <= p; q++) h[p * d + q] = (h[p * d + q] as number) + v * (nj[row * d + q] as number);
    }
    factor = factorOf(h, d);
    if (factor === null) return null;
    const step = solveWith(factor, g);
    const gain = step.reduce((s, v, i) => s + v * (g[i] as number), 0);
    const slack = 1e-12 * (1 + now.chi2);
    let k = 1;
    let next = parameters;
    let then = now;
    do {
      next = parameters.map((v, i) => v + k * (step[i] as number));
      then = misfit(next);
      k /= 2;
    } while (then.chi2 > now.chi2 + slack && k > 1e-6);
    if (then.chi2 <= now.chi2 + slack) {
      parameters = next;
      now = then;
    }
    converged = gain < 1e-10 * (1 + now.chi2);
  }
  if (factor === null) return null;
  return {
    parameters,
    covariance: inverseOf(factor),
    chi2: now.chi2,
    logEvidence:
      -now.chi2 / 2 -
      information.logVolume +
      construction.logDensity +
      ((d - m) / 2) * Math.log(2 * Math.PI) -
      factor.logRoot,
    converged,
  };
};

/** Slopes of all places of a construction by its parameters: J, 2n × d row by row. */
export const slopesOfPlaces = (
  construction: Construction,
  parameters: readonly number[],
  count: number,
): Float64Array => {
  const d = parameters.length;
  const j = new Float64Array(2 * count * d);
  for (const [i, place] of construction.places) {
    slopesOf(place, parameters, (row, p, slope) => {
      const at = (2 * i + row) * d + p;
      j[at] = (j[at] as number) + slope;
    });
  }
  return j;
};

/** J Σ Jᵀ, rows × rows. */
export const carryCovariance = (j: Float64Array, sigma: Float64Array, rows: number, d: number): Float64Array => {
  const half = new Float64Array(rows * d);
  for (let i = 0; i < rows; i++) {
    for (let p = 0; p < d; p++) {
      const v = j[i * d + p] as number;
      if (v !== 0)
        for (let q = 0; q < d; q++) half[i * d + q] = (half[i * d + q] as number) + v * (sigma[p * d + q] as number);
    }
  }
  const out = new Float64Array(rows * rows);
  for (let i = 0; i < rows; i++) {
    for (let k = 0; k <= i; k++) {
      let s = 0;
      for (let p = 0; p < d; p++) s += (half[i * d + p] as number) * (j[k * d + p] as number);
      out[i * rows + k] = s;
      out[k * rows + i] = s;
    }
  }
  return out;
};

/** A square matrix as its rows. */
export const rowsOf = (m: Float64Array, size: number): readonly (readonly number[])[] =>
  Array.from({ length: size }, (_, i) => Array.from(m.subarray(i * size, (i + 1) * size)));
