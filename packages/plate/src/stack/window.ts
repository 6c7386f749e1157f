import type { StackLimit, StackSpec } from '@fayplate/job';
import type { StackBound } from '../types.js';

/**
 * A limit's sum as a straight line in the unknown: known + factor × unknown, mm, with the band that the links' ± make
 * of it.
 */
export interface Sum {
  readonly limit: StackLimit;
  readonly factor: number;
  /** At the links' nominal values. */
  readonly known: number;
  readonly bands: Bands;
}

/** Half widths, mm. */
export interface Bands {
  readonly worst: number;
  readonly statistical: number;
}

/** z of the statistical band, and the share of cases that it holds under a normal law. */
const standardDeviations = 3;
export const coverage = 0.9973;

/** Worst: every link at the end of its ±. Statistical: z·√Σ(±/2)², a ± being two standard uncertainties. */
const bandsOf = (spreads: readonly number[]): Bands => ({
  worst: spreads.reduce((a, b) => a + b, 0),
  statistical: standardDeviations * Math.hypot(...spreads.map((s) => s / 2)),
});

/** `exact`: a link, or the unknown's own making, to be taken as if it had no ±. */
export const sumsOf = (spec: StackSpec, exact: string | null = null): readonly Sum[] =>
  spec.limits.map((limit) => {
    let known = 0;
    let factor = 0;
    const spreads: number[] = [];
    for (const [name, times] of limit.sum) {
      const link = spec.links.find((l) => l.name === name);
      if (link === undefined && name !== spec.unknown.name)
        throw new RangeError(`limit ${limit.name} sums ${name}, which is no link`);
      if (link === undefined) factor += times;
      else known += times * link.value;
      if (name !== exact) spreads.push(Math.abs(times) * (link?.plusMinus ?? spec.unknown.made ?? 0));
    }
    return { limit, factor, known, bands: bandsOf(spreads) };
  });

type Method = keyof Bands | 'nominal';

/**
 * Lowest and highest value of the unknown that the limits and its own range leave, and the bounds that set them; from >
 * to: none.
 */
export interface Window {
  readonly from: number;
  readonly to: number;
  readonly lower: StackBound;
  readonly upper: StackBound;
  /** A limit without the unknown in its sum that fails whatever is chosen, and by how much. */
  readonly hopeless: { readonly bound: StackBound; readonly by: number } | null;
}

/** Rounding that a sum of written lengths may carry, mm. */
export const tiny = 1e-9;

export const windowOf = (spec: StackSpec, sums: readonly Sum[], by: Method): Window => {
  const { from, to } = spec.unknown;
  let lower: StackBound = { limit: null, end: 'least', asks: 'from', at: from };
  let upper: StackBound = { limit: null, end: 'most', asks: 'to', at: to };
  let hopeless: Window['hopeless'] = null;
  for (const { limit, factor, known, bands } of sums) {
    const band = by === 'nominal' ? 0 : bands[by];
    for (const end of ['least', 'most'] as const) {
      const value = limit[end];
      if (value === null) continue;
      /** What known + factor × unknown must reach, or stay under. */
      const target = end === 'least' ? value + band : value - band;
      if (factor === 0) {
        const miss = end === 'least' ? target - known : known - target;
        if (miss > tiny && miss > (hopeless?.by ?? 0))
          hopeless = { bound: { limit: limit.name, end, asks: null, at: null }, by: miss };
        continue;
      }
      const at = (target - known) / factor;
      const asks = (end === 'least') === factor > 0 ? 'from' : 'to';
      if (asks === 'from' && at > (lower.at ?? -Infinity)) lower = { limit: limit.name, end, asks, at };
      if (asks === 'to' && at < (upper.at ?? Infinity)) upper = { limit: limit.name, end, asks, at };
    }
  }
  return { from: lower.at ?? from, to: upper.at ?? to, lower, upper, hopeless };
};

export const isOpen = (w: Window): boolean => w.hopeless === null && w.from <= w.to + tiny;
export const middleOf = (w: Window): number => (w.from + w.to) / 2;
