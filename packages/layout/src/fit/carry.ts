import { type Construction, slopesOf } from './construction.js';

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
