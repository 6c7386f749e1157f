import { chiSquareTail } from '@fayplate/core';
import { adjust } from '../adjust/adjust.js';
import { type WeighedSet, firstOrderAt } from '../adjust/first-order.js';
import type { Adjustment } from '../adjust/adjustment.js';
import { type System, isSpent, within } from '../adjust/system.js';
import { weightOf } from '../arrangements/telling.js';
import { levenbergMarquardt } from '../start/levenberg-marquardt.js';
import { ALPHA, CRITICAL, wOf } from './standardized.js';
import { type Explained, type Hypothesis, hypothesis } from './hypothesis.js';
import { likelySets } from './likely-sets.js';
import { manyWrong } from './many-wrong.js';

/** Sets are built up to so many readings. */
export const MOST_WRONG = 3;
/** Of pairs, and of threes, so many are solved for themselves about each shape: the likeliest to first order. */
const MOST_SETS = 40;
/** Readings looked into one by one; on a larger face those with the largest |w|. */
const MOST_SINGLES = 90;
/**
 * On a face of so many observations only these readings are looked into, and no pairs: slips far apart do not hide each
 * other.
 */
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
const isClean = (a: Adjustment): boolean =>
  a.stopped.converged &&
  a.network.observations.every((_, i) => Math.abs(wOf(a, i) ?? 0) <= CRITICAL) &&
  (a.dof <= 0 || chiSquareTail(a.chi2, a.dof) >= ALPHA);

/** Larger sets are looked into where, to first order, one comes so near to the best, as a log of odds. */
const AT_REACH = 5;

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
 * Explanations of a misfit, weighed by how well the rest then agree and how common such slips are: each reading alone;
 * pairs and threes where none will do, or where one comes near. (Baarda 1968, A testing procedure for use in geodetic
 * networks: the test of one reading at a time; Förstner 1983, Reliability and discernability of extended Gauss–Markov
 * models: what tells two such hypotheses apart; both from memory.) Every set is solved for itself, since a gross error
 * bends the network, and splits what would be ties to first order. `starts`: shapes to solve from, the likeliest first;
 * `hints`: sets that may explain it whatever their size.
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
      const ends = solvers.map((s, k) => {
        const { x, chi2 } = s.roughly(wrong);
        return { x, k, against: weightOf(network, chi2, x) };
      });
      return { wrong, ...ends.reduce((a, b) => (b.against < a.against ? b : a)) };
    });
    const least = Math.min(...rough.map((r) => r.against));
    const found = rough.flatMap(({ wrong, x, against, k }) => {
      if (against > 1.1 * least + 2 * BEHIND) return [];
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
  const ofOne = [...singles.map(([, i]) => [i]), ...hints.filter((h) => h.length === 1)];
  if (large) {
    const found = solve(ofOne);
    const best = found.find((h) => isClean(h.rest));
    return best === undefined ? manyWrong(system, base, starts, hints, activeWithout(count, [])) : weighed(found, best);
  }
  const firsts = starts.map((x) => likelySets(network, firstOrderAt(system, x), MOST_SETS));
  const nextSize = (): readonly WeighedSet[] => firsts.flatMap((f) => f.next().value ?? []);
  let all: readonly Hypothesis[] = [];
  let likely = nextSize();
  for (let size = 1; size <= MOST_WRONG; size++) {
    const hinted = hints.filter((h) => h.length === size);
    all = [...all, ...solve(size === 1 ? ofOne : [...likely.map((s) => s.wrong), ...hinted])];
    const best = all
      .filter((h) => isClean(h.rest))
      .reduce<Hypothesis | null>((a, b) => (a !== null && a.evidence >= b.evidence ? a : b), null);
    if (size === MOST_WRONG && best !== null) return weighed(all, best);
    likely = best === null ? nextSize() : besides(system, best, size + 1);
    if (best !== null && likely.length === 0) return weighed(all, best);
  }
  return manyWrong(system, base, starts, hints, activeWithout(count, []));
};

/** Larger sets that, to first order about the shape that the best one leaves, come near to it. */
const besides = (system: System, best: Hypothesis, size: number): readonly WeighedSet[] => {
  const levels: (readonly WeighedSet[])[] = [];
  for (const level of likelySets(system.network, firstOrderAt(system, best.rest.values), MOST_SETS)) {
    levels.push(level);
    if (levels.length === size) break;
  }
  const own = Math.max(...levels.slice(0, -1).flatMap((level) => level.map((s) => s.weight)));
  return (levels.at(-1) ?? []).filter((s) => s.weight > own - AT_REACH);
};

/**
 * A set that explains the misfit, and is likelier than another that adds more readings to it, takes that one's odds:
 * what is to be done is the same, and once it is done the rest shows.
 */
const foldedIn = (sorted: Explained['hypotheses']): Explained['hypotheses'] => {
  const odds = sorted.map((h) => h.odds);
  const kept = sorted.filter((h, i) => {
    const under = sorted.findIndex(
      (s, k) =>
        k < i && isClean(s.rest) && s.wrong.length < h.wrong.length && s.wrong.every((w) => h.wrong.includes(w)),
    );
    if (under < 0) return true;
    odds[under] = (odds[under] ?? 0) + h.odds;
    return false;
  });
  return kept.map((h) => ({ ...h, odds: odds[sorted.indexOf(h)] ?? h.odds })).sort((a, b) => b.odds - a.odds);
};

const weighed = (all: readonly Hypothesis[], best: Hypothesis): Explained => {
  const found = all.filter((h) => h.evidence > best.evidence - BEHIND);
  const most = Math.max(...found.map((h) => h.evidence));
  const shares = found.map((h) => Math.exp(h.evidence - most));
  const sum = shares.reduce((a, b) => a + b, 0);
  const hypotheses = found.map((h, i) => ({ ...h, odds: (shares[i] ?? 0) / sum }));
  return { hypotheses: foldedIn(hypotheses.sort((a, b) => b.odds - a.odds)) };
};
