import type { StackSpec } from '@fayplate/job';
import type { StackResult } from '../types.js';
import { type Bands, sumsOf } from './sums.js';
import { windowOf } from './window.js';

const width = (spec: StackSpec, by: keyof Bands, exact: string | null): number => {
  const w = windowOf(spec, sumsOf(spec, exact), by);
  return w.to - w.from;
};

/** For each ±, how much wider either window would be without it; a window that is shut opens by as much. */
export const costsOf = (spec: StackSpec): StackResult['costs'] => {
  const { name, made } = spec.unknown;
  const spreads = [
    ...spec.links.map((l) => ({ link: l.name, plusMinus: l.plusMinus })),
    ...(made === null ? [] : [{ link: name, plusMinus: made }]),
  ];
  const worst = width(spec, 'worst', null);
  const statistical = width(spec, 'statistical', null);
  return spreads
    .map((s) => ({
      ...s,
      worst: width(spec, 'worst', s.link) - worst,
      statistical: width(spec, 'statistical', s.link) - statistical,
    }))
    .sort((a, b) => b.worst - a.worst || b.statistical - a.statistical);
};
