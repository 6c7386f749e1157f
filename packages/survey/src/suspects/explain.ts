import { chiSquareTail } from '@fayplate/core';
import { adjust } from '../adjust/adjust.js';
import type { Adjustment } from '../adjust/adjustment.js';
import { type System, isSpent, within } from '../adjust/system.js';
import { slipsFor } from '../guess/guess.js';
import { levenbergMarquardt } from '../start/levenberg-marquardt.js';
import { weightOf } from '../arrangements/telling.js';
import { ALPHA, CRITICAL, wOf } from './standardized.js';
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

/** Sets are built up to so many readings. */
export const MOST_WRONG = 3;
/** Sets kept to be added to, and readings added to each. */
const BREADTH = 10;
/** Readings looked into one by one; on a larger face those with the largest |w|. */
const MOST_SINGLES = 90;
/** On a face of so many observations only these readings are looked into, and no pairs: slips far apart do not hide each other. */
const LARGE = { observations: 200, singles: 8, share: 0.8 } as const;
/** What looking for what is wrong may take on such a face, in products: some three seconds. */
const BUDGET = 1.6e9;

/** The work on what is wrong with a face: on a large one it ends at its budget. */
export const withinReason = <T>(system: System, work: () => T): T =>
  system.observations.length > LARGE.observations ? within(system.meter, BUDGET, work) : work();
/** A set that falls behind the best of its size by this, as a log of odds, is not solved to the end. */
const BEHIND = 14;

const activeWithout = (count: number, wrong: readonly number[]): readonly boolean[] => {
  const active = Array.from({ length: count }, () => true);
  for (const i of wrong) active[i] = false;
  return active;
};

/** Whether sound readings could fit so. */
export const isClean = (a: Adjustment): boolean =>
  a.stopped.converged &&
  a.network.observations.every((_, i) => Math.abs(wOf(a, i) ?? 0) <= CRITICAL) &&
  (a.dof <= 0 || chiSquareTail(a.chi2, a.dof) >= ALPHA);

/** An explanation that sound readings would fit worse than this often leaves nothing to ask for. */
const EASY = 0.05;

const pOf = ({ chi2, dof }: Adjustment): number => (dof > 0 ? chiSquareTail(chi2, dof) : 1);

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
const foreseenCovariance = (rest: Adjustment, wrong: readonly number[]): readonly (readonly number[])[] => {
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
 * How likely the readings are if some are wrong by unknown amounts: what stands against the rest (χ², clocks, solids), and for each wrong one how rare a slip is and how
 * likely one of that size (see `slipEvidence`). Errors that the rest tell apart badly make up for each other, and have a wider volume to lie
 * in: Σ's determinant beside its diagonal's.
 */
const hypothesis = (rest: Adjustment, wrong: readonly number[]): Hypothesis | null => {
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

/** Solves without some readings, from where the shape is right; roughly first, since most sets are far behind. */
const solverOf = (system: System, from: Float64Array, freedoms: number) => {
  const { network } = system;
  const count = network.observations.length;
  const roughly = (wrong: readonly number[], start = from): { readonly x: Float64Array; readonly chi2: number } =>
    levenbergMarquardt(system, start, 12, 1e-3, activeWithout(count, wrong));
  const fully = (wrong: readonly number[], x: Float64Array): Hypothesis | null => {
    const rest = adjust(network, x, { system, active: activeWithout(count, wrong), from: 'near' });
    // A reading that alone holds something can be as wrong as it likes: nothing could ever say so.
    return rest.nullSpace.length > freedoms ? null : hypothesis(rest, wrong);
  };
  return { roughly, fully };
};

const keyOf = (wrong: readonly number[]): string => wrong.join(' ');

/**
 * Explanations of a misfit, weighed by how well the rest then agree and how common such slips are: each reading alone; where none will do,
 * pairs, then threes. (Baarda 1968, A testing procedure for use in geodetic networks: the test of one reading at a time; Förstner 1983,
 * Reliability and discernability of extended Gauss–Markov models: what tells two such hypotheses apart; both from memory.) Every set is
 * solved for itself, since a gross error bends the network, and splits what would be ties to first order. `starts`: shapes to solve from, the
 * likeliest first; `hints`: sets that may explain it whatever their size.
 */
export const explain = (
  system: System,
  base: Adjustment,
  starts: readonly Float64Array[],
  hints: readonly (readonly number[])[],
): Explained => {
  const { network } = system;
  const count = network.observations.length;
  const freedoms = base.nullSpace.length;
  const solvers = starts.map((x) => solverOf(system, x, freedoms));
  const known = new Map<string, Hypothesis | null>();
  const solve = (sets: readonly (readonly number[])[]): readonly Hypothesis[] => {
    const fresh = sets.filter((s, k) => sets.findIndex((t) => keyOf(t) === keyOf(s)) === k);
    const rough = fresh.map((wrong) => {
      const ends = solvers.map((s, k) => ({ ...s.roughly(wrong), k }));
      return { wrong, ...ends.reduce((a, b) => (b.chi2 < a.chi2 ? b : a)) };
    });
    const least = Math.min(...rough.map((r) => r.chi2));
    const found = rough.flatMap(({ wrong, x, chi2, k }) => {
      if (chi2 > 1.1 * least + 2 * BEHIND) return [];
      const key = keyOf(wrong);
      if (!known.has(key)) known.set(key, isSpent(system.meter) ? null : (solvers[k]?.fully(wrong, x) ?? null));
      return known.get(key) ?? [];
    });
    return found.sort((a, b) => b.evidence - a.evidence);
  };
  const ws = network.observations.map((_, i) => Math.abs(wOf(base, i) ?? 0));
  const ranked = ws.map((w, i) => [w, i] as const).sort((a, b) => b[0] - a[0]);
  const large = count > LARGE.observations;
  if (large && hints.some((h) => h.length > 1)) return manyWrong(system, base, starts, hints, activeWithout(count, []));
  const [most] = ranked[0] ?? [0];
  const singles = large
    ? ranked.filter(([w]) => w > LARGE.share * most).slice(0, LARGE.singles)
    : ranked.filter(([w]) => w > 0).slice(0, MOST_SINGLES);
  let level = solve([...singles.map(([, i]) => [i]), ...hints.filter((h) => h.length === 1)]);
  let smaller: readonly Hypothesis[] = [];
  for (let size = 1; ; size++) {
    const good = level.filter((h) => isClean(h.rest));
    const [best] = good;
    const all = [...smaller, ...level];
    if (best !== undefined && (size === MOST_WRONG || pOf(best.rest) >= EASY)) return weighed(all, best);
    if (best === undefined && (size === MOST_WRONG || large)) break;
    if (best !== undefined && large) return weighed(all, best);
    if (smaller.length > 0) {
      // A smaller set explained it, though not well: the larger ones have been weighed beside it.
      const [least] = [...good, ...smaller].sort((a, b) => b.evidence - a.evidence);
      if (least !== undefined) return weighed(all, least);
    }
    smaller = good.length > 0 ? level : [];
    const grown = level.slice(0, BREADTH).flatMap((h) => {
      const next = network.observations.map((_, i) => [Math.abs(wOf(h.rest, i) ?? 0), i] as const);
      return next
        .filter(([w, i]) => w > 0 && !h.wrong.includes(i))
        .sort((a, b) => b[0] - a[0])
        .slice(0, BREADTH)
        .map(([, i]) => [...h.wrong, i].sort((a, b) => a - b));
    });
    level = solve([...grown, ...hints.filter((h) => h.length === size + 1)]);
    if (level.length === 0) break;
  }
  const [least] = [...smaller].sort((a, b) => b.evidence - a.evidence);
  return least === undefined
    ? manyWrong(system, base, starts, hints, activeWithout(count, []))
    : weighed(smaller, least);
};

const weighed = (all: readonly Hypothesis[], best: Hypothesis): Explained => {
  const found = all.filter((h) => h.evidence > best.evidence - BEHIND);
  const most = Math.max(...found.map((h) => h.evidence));
  const shares = found.map((h) => Math.exp(h.evidence - most));
  const sum = shares.reduce((a, b) => a + b, 0);
  const hypotheses = found.map((h, i) => ({ ...h, odds: (shares[i] ?? 0) / sum }));
  return { hypotheses: hypotheses.sort((a, b) => b.odds - a.odds) };
};

/** Readings that stand out nearly as much as the worst, and share no feature with one that stands out more, are left out along with it. */
const NEARLY = 0.7;

/** Solutions that leaving out takes at most: so many, and those that take so many products in all. */
const MOST_TURNS = { least: 12, products: 0.4e9 } as const;

const worstApart = (rest: Adjustment): readonly number[] => {
  const ranked = rest.network.observations
    .map((o, i) => ({ i, w: Math.abs(wOf(rest, i) ?? 0), features: o.reading?.features ?? [o.id] }))
    .filter(({ w }) => w > CRITICAL)
    .sort((a, b) => b.w - a.w);
  const [worst] = ranked;
  if (worst === undefined) return [];
  const met = new Set<string>();
  return ranked.flatMap(({ i, w, features }) => {
    if (w < NEARLY * worst.w || features.some((f) => met.has(f))) return [];
    for (const f of features) met.add(f);
    return [i];
  });
};

/** Many wrong: the set that the robust start leaves out, made smaller and larger by one reading after another until the rest agree. */
const manyWrong = (
  system: System,
  base: Adjustment,
  starts: readonly Float64Array[],
  hints: readonly (readonly number[])[],
  all: readonly boolean[],
): Explained => {
  const { network } = system;
  const [hint = []] = [...hints].sort((a, b) => b.length - a.length);
  const wrong = new Set(hint);
  const from = starts[0] ?? base.values;
  const again = (x: Float64Array): Adjustment =>
    adjust(network, x, { system, active: all.map((_, i) => !wrong.has(i)), from: 'near' });
  let rest = again(
    levenbergMarquardt(
      system,
      from,
      25,
      1e-7,
      all.map((_, i) => !wrong.has(i)),
    ).x,
  );
  const turns = Math.max(MOST_TURNS.least, Math.min(network.observations.length, MOST_TURNS.products / system.cost));
  for (let turn = 0; turn < turns && !isSpent(system.meter); turn++) {
    const out = worstApart(rest);
    if (out.length === 0) break;
    for (const i of out) wrong.add(i);
    rest = again(rest.values);
  }
  for (const i of [...wrong].reverse()) {
    if (isSpent(system.meter)) break;
    // What lies far from what the rest foresee stays out: nothing need be solved again to know it.
    const [[own = 0] = []] = foreseenCovariance(rest, [i]);
    if (Math.abs(rest.residuals[i] as number) > 2 * CRITICAL * Math.sqrt(own)) continue;
    wrong.delete(i);
    const back = again(rest.values);
    if (back.stopped.converged && Math.abs(wOf(back, i) ?? 0) <= CRITICAL) rest = back;
    else wrong.add(i);
  }
  if (wrong.size === 0) return { hypotheses: [] };
  return explainedBy(
    again(rest.values),
    [...wrong].sort((a, b) => a - b),
  );
};

/** The one explanation that leaves out what no shape settles with; `rest`: adjusted without it. */
export const explainedBy = (rest: Adjustment, wrong: readonly number[]): Explained => {
  const sigmas = wrong.map((i) => Math.sqrt(foreseenCovariance(rest, [i])[0]?.[0] ?? 0));
  const errors = wrong.map((i) => rest.residuals[i] as number);
  return { hypotheses: [{ wrong, rest, errors, sigmas, evidence: 0, odds: 1 }] };
};
