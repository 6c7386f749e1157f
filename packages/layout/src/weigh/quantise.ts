import type { Adjusted } from '../fit/adjust.js';
import { type Construction, type Quantity, quantityAt } from '../fit/construction.js';
import { factorOf, solveWith } from '../fit/dense.js';
import { ONE_UNIT, unitShare } from '../prior/length.js';

/**
 * One way to settle a quantity: at a value, or free; prior weight by the unit that the value may have been chosen in.
 */
interface Option {
  readonly value: number | null;
  readonly inch: number;
  readonly mm: number;
  readonly other: number;
}

/** One way to settle all quantities of a construction. */
export interface Settled {
  readonly values: readonly (number | null)[];
  /** Log of the marginal likelihood over that of the construction with every quantity free at prior weight 1. */
  readonly logRatio: number;
  /**
   * How the weight falls on drawings all in inches, all in millimetres, in both, or without a round size; they add up
   * to 1.
   */
  readonly units: { readonly in: number; readonly mm: number; readonly mixed: number; readonly none: number };
  /** Unit of each value, the likelier where it may be either. */
  readonly unitOf: readonly ('in' | 'mm' | null)[];
}

/** No quantity settled at all. */
export const allFree: Settled = { values: [], logRatio: 0, units: { in: 0, mm: 0, mixed: 0, none: 1 }, unitOf: [] };

/**
 * Steps finer than this many standard deviations cannot be told from a free value: some round value always lies within
 * reach. Their weight goes to the free one, so that sizes nobody could tell apart do not split the odds.
 */
const TELLS = 3;
/** Values further than this many standard deviations are left out: e^−18 of the best. */
const REACH = 6;
/**
 * Values this much less likely than the best of their quantity, taken by itself, are left out; and where there would be
 * too many ways, the least likely.
 */
const SLIGHT = 1e-5;
const MOST = 400;

const normal = (z: number): number => Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI);

const optionsOf = (q: Quantity, at: number, sigma: number): readonly Option[] => {
  const values = new Map<string, { value: number; inch: number; mm: number; other: number }>();
  let free = { value: null, inch: 0, mm: 0, other: q.free };
  for (const family of q.families) {
    if (family.step < TELLS * sigma) {
      if (family.unit === 'in') free = { ...free, inch: free.inch + family.weight };
      else if (family.unit === 'mm') free = { ...free, mm: free.mm + family.weight };
      else free = { ...free, other: free.other + family.weight };
      continue;
    }
    const from = Math.ceil((at - REACH * sigma - family.offset) / family.step);
    const to = Math.floor((at + REACH * sigma - family.offset) / family.step);
    for (let k = from; k <= to; k++) {
      const value = family.offset + k * family.step;
      if (q.what === 'size' && value <= 0) continue;
      const key = value.toFixed(7);
      const o = values.get(key) ?? { value, inch: 0, mm: 0, other: 0 };
      const mass = family.weight * family.step;
      // None is none in any unit.
      if (family.unit === null || k === 0) o.other += mass;
      else if (family.unit === 'in') o.inch += mass;
      else o.mm += mass;
      values.set(key, o);
    }
  }
  return [free, ...values.values()];
};

/** log N(e; 0, Σ), Σ row by row. */
const logNormal = (e: readonly number[], sigma: Float64Array): number => {
  const factor = factorOf(sigma, e.length);
  if (factor === null) return Number.NEGATIVE_INFINITY;
  const x = solveWith(factor, Float64Array.from(e));
  const quadratic = e.reduce((s, v, i) => s + v * (x[i] as number), 0);
  return -quadratic / 2 - factor.logRoot - (e.length / 2) * Math.log(2 * Math.PI);
};

/** Joint covariance of a construction's quantities, row by row, and their free values. */
export interface FreeQuantities {
  readonly at: readonly number[];
  readonly sigma: Float64Array;
  readonly deviation: readonly number[];
  /** No way to settle them weighs more than this over all of them free at prior weight 1, log. */
  readonly most: number;
}

export const freeQuantities = (construction: Construction, adjusted: Adjusted): FreeQuantities => {
  const { quantities } = construction;
  const k = quantities.length;
  const d = adjusted.parameters.length;
  const sigma = new Float64Array(k * k);
  for (const [i, a] of quantities.entries()) {
    for (const [j, b] of quantities.entries()) {
      for (const [p, u] of a.value.terms)
        for (const [q, v] of b.value.terms)
          sigma[i * k + j] = (sigma[i * k + j] as number) + u * v * (adjusted.covariance[p * d + q] as number);
    }
  }
  const deviation = quantities.map((_, i) => Math.sqrt(sigma[i * k + i] as number));
  // Every family at once, at the peak; twice, for sizes that share a unit weigh up to 1.5 or 3 times as much together.
  const most = quantities.reduce(
    (s, q, i) =>
      s + Math.log(1 + q.families.reduce((w, f) => w + 2 * f.weight * f.step, 0) / (2.5 * (deviation[i] ?? 1))),
    0,
  );
  return { at: quantities.map((_, i) => quantityAt(construction, i, adjusted.parameters)), sigma, deviation, most };
};

/**
 * Every way to settle the quantities of an adjusted construction, weighed without adjusting again: holding quantities q
 * at values v multiplies the marginal likelihood by (prior mass of v / free prior density at v) · N(v; q̂, Σ_q), the
 * Savage–Dickey ratio (Dickey 1971, Ann. Math. Stat. 42, 204–223), exact for a linear model. Sizes of one drawing share
 * their unit with chance `ONE_UNIT`.
 */
export const settle = ({ quantities }: Construction, { at, sigma, deviation }: FreeQuantities): readonly Settled[] => {
  if (quantities.length === 0) return [allFree];
  const options = quantities.map((q, i) => optionsOf(q, at[i] ?? Number.NaN, deviation[i] ?? Number.NaN));
  let ways: readonly (readonly Option[])[] = [[]];
  for (const [i, list] of options.entries()) {
    const alone = (o: Option): number =>
      (o.inch + o.mm + o.other) *
      (o.value === null ? 1 : normal((o.value - (at[i] ?? 0)) / (deviation[i] ?? 1)) / (deviation[i] ?? 1));
    const ranked = list.map((o) => ({ o, weight: alone(o) })).sort((x, y) => y.weight - x.weight);
    const least = SLIGHT * (ranked[0]?.weight ?? 0);
    const most = Math.max(3, Math.floor(MOST / ways.length));
    const kept = ranked.filter((r, k) => k < most && r.weight >= least).map((r) => r.o);
    ways = ways.flatMap((way) => kept.map((o) => [...way, o]));
  }
  return ways.map((way) => settledBy(way, quantities, at, sigma));
};

const settledBy = (
  way: readonly Option[],
  quantities: readonly Quantity[],
  at: readonly number[],
  sigma: Float64Array,
): Settled => {
  const held = way.flatMap((o, i) => (o.value === null ? [] : [i]));
  const e = held.map((i) => (way[i]?.value ?? 0) - (at[i] ?? 0));
  const fit =
    held.length === 0
      ? 0
      : logNormal(e, Float64Array.from(held.flatMap((i) => held.map((j) => sigma[i * way.length + j] as number))));
  let each = 1;
  let eachIn = 1;
  let eachMm = 1;
  let allIn = 1;
  let allMm = 1;
  let other = 1;
  let sizes = 0;
  for (const [i, o] of way.entries()) {
    const sum = o.inch + o.mm + o.other;
    if (quantities[i]?.what === 'direction') {
      other *= sum;
      continue;
    }
    each *= sum;
    eachIn *= o.inch / unitShare.in + o.other;
    eachMm *= o.mm / unitShare.mm + o.other;
    const round = o.inch + o.mm > 0 && o.value !== null;
    allIn *= round ? o.inch : sum;
    allMm *= round ? o.mm : sum;
    if (round) sizes++;
  }
  const byIn = (1 - ONE_UNIT) * allIn + ONE_UNIT * unitShare.in * eachIn;
  const byMm = (1 - ONE_UNIT) * allMm + ONE_UNIT * unitShare.mm * eachMm;
  const weight = (1 - ONE_UNIT) * each + ONE_UNIT * (unitShare.in * eachIn + unitShare.mm * eachMm);
  return {
    values: way.map((o) => o.value),
    logRatio: Math.log(weight * other) + fit,
    units:
      sizes === 0
        ? { in: 0, mm: 0, mixed: 0, none: 1 }
        : { in: byIn / weight, mm: byMm / weight, mixed: Math.max(0, 1 - (byIn + byMm) / weight), none: 0 },
    unitOf: way.map((o) => (o.value === null || o.inch + o.mm === 0 ? null : o.inch > o.mm ? 'in' : 'mm')),
  };
};
