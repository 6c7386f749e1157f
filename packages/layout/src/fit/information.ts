import { type Measured, covarianceAt } from '../measured/points.js';
import { firmFactor, inverseOf } from './dense.js';

/** Inverse of the joint covariance of some of the measured points, the others left free. */
export interface Information {
  /** Indices of the measured points, ascending; rows go x, y of each. */
  readonly indices: readonly number[];
  /** C⁻¹, row by row, mm⁻². */
  readonly inverse: Float64Array;
  /** log √|C|. */
  readonly logVolume: number;
}

export type Informing = (indices: readonly number[]) => Information;

/** Information of any set of the measured points, kept for each set asked for. */
export const informing = (measured: Measured): Informing => {
  const kept = new Map<string, Information>();
  return (wanted) => {
    const indices = [...wanted].sort((a, b) => a - b);
    const key = indices.join(' ');
    const known = kept.get(key);
    if (known !== undefined) return known;
    const rows = indices.flatMap((i) => [2 * i, 2 * i + 1]);
    const some = new Float64Array(rows.length ** 2);
    for (const [i, r] of rows.entries())
      for (const [j, c] of rows.entries()) some[i * rows.length + j] = covarianceAt(measured, r, c);
    const factor = firmFactor(some, rows.length);
    const made: Information = { indices, inverse: inverseOf(factor), logVolume: factor.logRoot };
    kept.set(key, made);
    return made;
  };
};
