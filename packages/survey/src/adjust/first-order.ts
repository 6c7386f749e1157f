import { coincidentIn } from './coincident.js';
import { rankOf } from './nullspace.js';
import { solveScaled } from './solver.js';
import { type System, linearise, gradient, push, scalesOf } from './system.js';

/**
 * Residuals of all observations about one shape, and how an error in one shows in each (I − A N⁻¹ Aᵀ), in their sigmas.
 */
export interface FirstOrder {
  readonly residuals: Float64Array;
  readonly shows: readonly Float64Array[];
  readonly chi2: number;
}

/** What leaving some observations out does, to first order: errors that they then have, in their sigmas. */
export interface LeftOut {
  readonly errors: readonly number[];
  readonly variances: readonly number[];
  /** By how much χ² falls. */
  readonly fall: number;
  /** Determinant of the errors' covariance. */
  readonly determinant: number;
}

/** Below this share of its error in its own residual nothing checks an observation. */
const UNCHECKED = 1e-9;
/** No residual tells sets apart whose errors cancel to this. */
const SAME = 1e-9;

/** All readings adjusted in one step from `x`, no matter how far that is from the end. */
export const firstOrderAt = (system: System, x: Float64Array): FirstOrder => {
  const { network, meter, offsets, slots, pattern } = system;
  const { weightedResiduals, slopes } = linearise(system, x, []);
  for (const i of coincidentIn(network, x)) slopes.fill(0, offsets[i], offsets[i + 1]);
  const scales = scalesOf(system, slopes);
  const { factor } = rankOf(system, x, slopes, scales);
  const left = (m: Float64Array): Float64Array => {
    const taken = push(system, slopes, solveScaled(factor, scales, gradient(system, { slopes, weightedResiduals: m })));
    return m.map((v, i) => v - (taken[i] as number));
  };
  const residuals = left(weightedResiduals);
  const shows = network.observations.map((_, i) =>
    left(Float64Array.from(weightedResiduals, (__, j) => (i === j ? 1 : 0))),
  );
  meter.spent += system.cost + 2 * network.observations.length * (pattern.rows.length + slots.length);
  return { residuals, shows, chi2: residuals.reduce((sum, r) => sum + r * r, 0) };
};

/** Inverse and determinant of a small positive matrix; null where it is singular to `SAME` of its diagonal. */
const inverted = (
  m: readonly (readonly number[])[],
): { readonly inverse: readonly (readonly number[])[]; readonly determinant: number } | null => {
  const n = m.length;
  const rows = m.map((row, i) => [...row, ...row.map((_, j) => (i === j ? 1 : 0))]);
  let determinant = 1;
  for (const [k, row] of rows.entries()) {
    const pivot = row[k] ?? 0;
    if (!(pivot > SAME * (m[k]?.[k] ?? 0))) return null;
    determinant *= pivot;
    for (let c = 0; c < 2 * n; c++) row[c] = (row[c] ?? 0) / pivot;
    for (const other of rows) {
      const f = other === row ? 0 : (other[k] ?? 0);
      if (f !== 0) for (let c = 0; c < 2 * n; c++) other[c] = (other[c] ?? 0) - f * (row[c] ?? 0);
    }
  }
  return { inverse: rows.map((row) => row.slice(n)), determinant };
};

/** What leaving out a set does; null where the rest could not tell its errors. */
export const leavingOut = (first: FirstOrder, wrong: readonly number[]): LeftOut | null => {
  const { residuals, shows } = first;
  const [i, j] = wrong;
  if (i !== undefined && j !== undefined && wrong.length === 2) return leavingOutTwo(first, i, j);
  const known = inverted(wrong.map((k) => wrong.map((l) => shows[k]?.[l] ?? 0)));
  if (known === null) return null;
  const own = wrong.map((k) => residuals[k] ?? 0);
  const errors = known.inverse.map((row) => row.reduce((sum, q, l) => sum + q * (own[l] ?? 0), 0));
  return {
    errors,
    variances: known.inverse.map((row, k) => row[k] ?? 0),
    fall: errors.reduce((sum, e, k) => sum + e * (own[k] ?? 0), 0),
    determinant: 1 / known.determinant,
  };
};

/** The same for two, written out: there are thousands of them. */
const leavingOutTwo = ({ residuals, shows }: FirstOrder, i: number, j: number): LeftOut | null => {
  const [a, b, c] = [shows[i]?.[i] ?? 0, shows[i]?.[j] ?? 0, shows[j]?.[j] ?? 0];
  const determinant = a * c - b * b;
  if (!(determinant > SAME * a * c)) return null;
  const [p, q] = [residuals[i] ?? 0, residuals[j] ?? 0];
  const errors = [(c * p - b * q) / determinant, (a * q - b * p) / determinant] as const;
  const fall = p * errors[0] + q * errors[1];
  return { errors, variances: [c / determinant, a / determinant], fall, determinant: 1 / determinant };
};

/** A set of observations, ascending, and what it was weighed at. */
export interface WeighedSet {
  readonly wrong: readonly number[];
  readonly weight: number;
}

/**
 * Sets of one, then of two, then of three observations to leave out, those of the greatest weight first: of two every
 * pair, since of two slips neither need stand out alone; of three each of the `most` best pairs with every other.
 */
export const setsLeftOut = function* (
  first: FirstOrder,
  most: number,
  weigh: (wrong: readonly number[], left: LeftOut) => number,
): Generator<readonly WeighedSet[], void> {
  const checked = [...first.residuals.keys()].filter((i) => (first.shows[i]?.[i] ?? 0) > UNCHECKED);
  const best = (sets: readonly (readonly number[])[]): readonly WeighedSet[] =>
    sets
      .flatMap((wrong): readonly WeighedSet[] => {
        const left = leavingOut(first, wrong);
        return left === null ? [] : [{ wrong, weight: weigh(wrong, left) }];
      })
      .sort((a, b) => b.weight - a.weight);
  yield best(checked.map((i) => [i]));
  const pairs = best(checked.flatMap((i, k) => checked.slice(k + 1).map((j) => [i, j]))).slice(0, most);
  yield pairs;
  const threes = new Map<string, readonly number[]>();
  for (const { wrong } of pairs)
    for (const i of checked) {
      if (wrong.includes(i)) continue;
      const three = [...wrong, i].sort((a, b) => a - b);
      threes.set(three.join(' '), three);
    }
  yield best([...threes.values()]).slice(0, most);
};
