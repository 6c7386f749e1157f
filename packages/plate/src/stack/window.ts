import type { StackSpec } from '@fayplate/job';
import type { StackBound } from '../types.js';
import type { Bands, Sum } from './sums.js';

type Reckoning = keyof Bands | 'nominal';

/** Lowest and highest value of the unknown that the limits and its own range leave, and the bounds that set them; from > to: none. */
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

export const windowOf = (spec: StackSpec, sums: readonly Sum[], by: Reckoning): Window => {
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
