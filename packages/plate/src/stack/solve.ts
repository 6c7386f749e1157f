import type { StackSpec } from '@fayplate/job';
import type { StackCheck, StackConflict, StackResult } from '../types.js';
import { choose } from './choose.js';
import { type Bands, type Sum, type Window, coverage, isOpen, middleOf, sumsOf, tiny, windowOf } from './window.js';

const width = (spec: StackSpec, by: keyof Bands, exact: string | null): number => {
  const w = windowOf(spec, sumsOf(spec, exact), by);
  return w.to - w.from;
};

/** For each ±, how much wider either window would be without it; a window that is shut opens by as much. */
const costsOf = (spec: StackSpec): StackResult['costs'] => {
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

/** A limit with the unknown at a value, mm. */
export const checkAt = ({ limit, factor, known, bands }: Sum, unknown: number): StackCheck => {
  const nominal = known + factor * unknown;
  const worst = [nominal - bands.worst, nominal + bands.worst] as const;
  return {
    name: limit.name,
    nominal,
    worst,
    statistical: [nominal - bands.statistical, nominal + bands.statistical],
    least: limit.least,
    most: limit.most,
    ok:
      (limit.least === null || worst[0] >= limit.least - tiny) &&
      (limit.most === null || worst[1] <= limit.most + tiny),
  };
};

const conflictOf = (worst: Window, nominal: Window): StackConflict | null => {
  if (isOpen(worst)) return null;
  const evenWhenExact = !isOpen(nominal);
  if (worst.hopeless !== null) {
    const { bound, by } = worst.hopeless;
    return { between: [bound, bound], by, evenWhenExact: nominal.hopeless?.bound.limit === bound.limit };
  }
  return { between: [worst.lower, worst.upper], by: worst.from - worst.to, evenWhenExact };
};

/**
 * Windows for the unknown of a stack, by worst case and by statistics, the thickness and shims to use, and each limit
 * at that thickness. Where the worst case leaves no window the choice is made by statistics, and `ok` is false all the
 * same. Throws RangeError for a sum that names no link.
 */
export const solveStack = (spec: StackSpec): StackResult => {
  const sums = sumsOf(spec);
  const worst = windowOf(spec, sums, 'worst');
  const statistical = windowOf(spec, sums, 'statistical');
  const open = [worst, statistical].find(isOpen);
  const choice = open === undefined ? null : choose(spec, open);
  const at = choice?.total ?? Math.min(Math.max(middleOf(worst), spec.unknown.from), spec.unknown.to);
  return {
    unknown: spec.unknown.name,
    worst: isOpen(worst) ? { from: worst.from, to: worst.to } : null,
    statistical: isOpen(statistical) ? { from: statistical.from, to: statistical.to, coverage } : null,
    chosen: choice?.thickness ?? null,
    spacer: choice?.spacer ?? null,
    shims: choice?.shims ?? [],
    total: choice?.total ?? null,
    at,
    limits: sums.map((s) => checkAt(s, at)),
    costs: costsOf(spec),
    conflict: conflictOf(worst, windowOf(spec, sums, 'nominal')),
    ok: isOpen(worst) && choice !== null,
  };
};
