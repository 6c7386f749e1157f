import type { Adjustment } from '../adjust/adjustment.js';
import { weightOf } from '../arrangements/telling.js';
import { slipsFor } from '../guess/guess.js';
import { likenessGain, slipEvidence, slipRate } from './slip-odds.js';

/** A set of observations that may be wrong, each by an unknown amount, and how well the rest then agree. */
export interface Hypothesis {
  /** Places among the observations, ascending. */
  readonly wrong: readonly number[];
  /** The rest, adjusted. */
  readonly rest: Adjustment;
  /** Log of how likely the readings are so, beside all being sound and fitting exactly. */
  readonly evidence: number;
  /** Estimated errors, mm or radians, in the order of `wrong`, and their standard uncertainties. */
  readonly errors: readonly number[];
  readonly sigmas: readonly number[];
}

/** What may explain a misfit, the likeliest first; empty where there is none, or where nothing tried explains it. */
export interface Explained {
  readonly hypotheses: readonly (Hypothesis & { readonly odds: number })[];
}

/** a Q bᵀ for two observations, by the adjustment's own generalised inverse. */
const shared = (rest: Adjustment, solved: Float64Array, i: number): number => {
  const o = rest.network.observations[i];
  if (o === undefined) return 0;
  const slopes = new Float64Array(o.unknowns.length);
  o.model(rest.values, slopes);
  return o.unknowns.reduce((sum, u, k) => sum + (slopes[k] as number) * (solved[u] as number), 0);
};

const solvedFor = (rest: Adjustment, i: number): Float64Array => {
  const o = rest.network.observations[i];
  const b = new Float64Array(rest.network.unknowns.count);
  if (o === undefined) return b;
  const slopes = new Float64Array(o.unknowns.length);
  o.model(rest.values, slopes);
  for (const [k, u] of o.unknowns.entries()) b[u] = (b[u] as number) + (slopes[k] as number);
  return rest.solve(b);
};

/** Covariance of what the rest foresee for observations left out, their own errors counted in. */
export const foreseenCovariance = (rest: Adjustment, wrong: readonly number[]): readonly (readonly number[])[] => {
  const columns = wrong.map((i) => solvedFor(rest, i));
  return wrong.map((i, a) =>
    wrong.map((_, b) => {
      const own = a === b ? (rest.network.observations[i]?.sigma ?? 0) ** 2 : 0;
      return own + shared(rest, columns[b] as Float64Array, i);
    }),
  );
};

const determinant = (m: readonly (readonly number[])[]): number => {
  const a = m.map((row) => [...row]);
  let det = 1;
  for (const [k, row] of a.entries()) {
    const pivot = row[k] ?? 0;
    det *= pivot;
    if (!(pivot > 0)) return 0;
    for (const below of a.slice(k + 1)) {
      const f = (below[k] ?? 0) / pivot;
      for (let c = k; c < row.length; c++) below[c] = (below[c] ?? 0) - f * (row[c] ?? 0);
    }
  }
  return det;
};

/**
 * How likely the readings are if some are wrong by unknown amounts: what stands against the rest (χ², clocks, solids),
 * and for each wrong one how rare a slip is and how likely one of that size (see `slipEvidence`). Errors that the rest
 * tell apart badly make up for each other, and have a wider volume to lie in: Σ's determinant beside its diagonal's.
 */
export const hypothesis = (rest: Adjustment, wrong: readonly number[]): Hypothesis | null => {
  const { observations } = rest.network;
  const sigma = foreseenCovariance(rest, wrong);
  const sigmas = sigma.map((row, k) => Math.sqrt(row[k] ?? 0));
  const errors = wrong.map((i) => rest.residuals[i] as number);
  const volume = determinant(sigma) / sigmas.reduce((product, s) => product * s * s, 1);
  if (!rest.stopped.converged || !(volume > 1e-12)) return null;
  const slips = wrong.reduce((sum, i, k) => {
    const observation = observations[i];
    if (observation === undefined) return sum;
    const [e, s] = [errors[k] as number, sigmas[k] as number];
    const common = slipsFor({ observation, without: rest, expected: observation.value - e, sigma: s });
    return (
      sum + Math.log(slipRate(observation) * slipEvidence(e, s, common)) + likenessGain(rest.network, observation, e)
    );
  }, 0);
  const against = weightOf(rest.network, rest.chi2, rest.values);
  return { wrong, rest, errors, sigmas, evidence: -against / 2 + slips + Math.log(volume) / 2 };
};

/** The one explanation that leaves out what no shape settles with; `rest`: adjusted without it. */
export const explainedBy = (rest: Adjustment, wrong: readonly number[]): Explained => {
  const sigmas = wrong.map((i) => Math.sqrt(foreseenCovariance(rest, [i])[0]?.[0] ?? 0));
  const errors = wrong.map((i) => rest.residuals[i] as number);
  return { hypotheses: [{ wrong, rest, errors, sigmas, evidence: 0, odds: 1 }] };
};
