import { adjust } from '../adjust/adjust.js';
import type { Adjustment } from '../adjust/adjustment.js';
import { type System, isSpent } from '../adjust/system.js';
import { isExact } from '../network/network.js';
import type { Explained, Hypothesis } from './hypothesis.js';
import { CRITICAL, isTied, wOf } from './standardized.js';

/** One observation set aside, at the moment that it was. */
export interface SetAside {
  /** Index into the observations. */
  readonly index: number;
  readonly w: number;
  readonly redundancy: number;
  /** Others that cannot be told from it: with the same |w|, or likely themselves and tested by the same errors. */
  readonly tied: readonly number[];
  readonly before: Adjustment;
  readonly after: Adjustment;
}

/** Tests that correlate so closely cannot be told apart by any error that a shop makes (Förstner 1983). */
const INSEPARABLE = 0.98;

/** Correlation of two readings' tests, w against w, without sign; 0 where either is unchecked. */
const correlationOf = (a: Adjustment, i: number, j: number): number => {
  const { observations } = a.network;
  const [p, q] = [observations[i], observations[j]];
  const [r, s] = [a.redundancy[i] as number, a.redundancy[j] as number];
  if (p === undefined || q === undefined || !(r > 0) || !(s > 0)) return 0;
  const [f, g] = [new Float64Array(p.unknowns.length), new Float64Array(q.unknowns.length)];
  p.model(a.values, f);
  q.model(a.values, g);
  const b = new Float64Array(a.network.unknowns.count);
  for (const [k, u] of q.unknowns.entries()) b[u] = (b[u] as number) + (g[k] as number);
  const solved = a.solve(b);
  const shared = p.unknowns.reduce((sum, u, k) => sum + (f[k] as number) * (solved[u] as number), 0);
  return Math.abs(shared) / (p.sigma * q.sigma * Math.sqrt(r * s));
};

/**
 * The members of the likeliest explanation one after another, the largest |w| first, each solved without those before
 * it.
 */
export const setAsideBy = (base: Adjustment, system: System, explained: Explained): readonly SetAside[] => {
  const { network } = base;
  const [best] = explained.hypotheses;
  if (best === undefined) return [];
  const active = network.observations.map(() => true);
  const left = new Set(best.wrong);
  const out: SetAside[] = [];
  let before = base;
  while (left.size > 0) {
    const now = before;
    const index = [...left].reduce((a, b) => (Math.abs(wOf(now, b) ?? 0) > Math.abs(wOf(now, a) ?? 0) ? b : a));
    left.delete(index);
    active[index] = false;
    const w = wOf(now, index) ?? 0;
    const start = left.size === 0 ? best.rest.values : now.values;
    const after = adjust(network, start, { system, active: [...active], from: 'near' });
    const tied = network.observations.flatMap((o, i) => {
      if (i === index || active[i] !== true) return [];
      // A diameter given as exact is seldom wrong: its odds decide, however alike the tests are.
      const exactly = isTied(wOf(now, i) ?? 0, w) && !isExact(o);
      // Where the tests are one to first order only, and its own error would be another, it is no explanation.
      if (!standsIn(explained, best, index, i)) return [];
      return exactly || correlationOf(now, index, i) >= INSEPARABLE ? [i] : [];
    });
    out.push({ index, w, redundancy: now.redundancy[index] as number, tied, before: now, after });
    before = after;
  }
  return out;
};

/** Whether a listed explanation has the one reading in the other's place. */
const standsIn = (explained: Explained, best: Hypothesis, index: number, instead: number): boolean => {
  const wanted = [...best.wrong.filter((i) => i !== index), instead].sort((a, b) => a - b).join(' ');
  return listed(explained).some((h) => h.wrong.join(' ') === wanted);
};

/** Explanations are listed until their odds reach this. */
const TOLD = 0.95;

/** The likeliest explanations, until their odds together reach `TOLD`. */
export const listed = ({ hypotheses }: Explained): Explained['hypotheses'] => {
  let sum = 0;
  return hypotheses.filter(({ odds }) => {
    const wanted = sum < TOLD;
    sum += odds;
    return wanted;
  });
};

/**
 * The same without solving for each: by how far each lies from what the rest foresee. `before`: adjusted with all,
 * where there is such.
 */
export const asideAtOnce = (before: Adjustment | null, { hypotheses }: Explained): readonly SetAside[] => {
  const [best] = hypotheses;
  return (best?.wrong ?? []).flatMap((index, k): readonly SetAside[] => {
    const after = best?.rest;
    if (after === undefined) return [];
    const own = after.network.observations[index]?.sigma ?? 1;
    const foreseen = best?.sigmas[k] ?? own;
    const w = (after.residuals[index] as number) / foreseen;
    return [{ index, w, redundancy: (own / foreseen) ** 2, tied: [], before: before ?? after, after }];
  });
};

/**
 * The readings that stand out, the largest |w| first, each with the error that it alone would have to first order:
 * residual / redundancy. Nothing is solved again, so what each hides of the others is not seen.
 */
export const atFirstSight = (base: Adjustment): readonly SetAside[] => {
  const { redundancy, residuals } = base;
  const named = Array.from(redundancy, (_, index) => ({ index, w: wOf(base, index) ?? 0 }))
    .filter(({ w }) => Math.abs(w) > CRITICAL)
    .sort((a, b) => Math.abs(b.w) - Math.abs(a.w))
    .slice(0, MOST_AT_SIGHT);
  const errors = Float64Array.from(residuals);
  for (const { index } of named) errors[index] = (residuals[index] as number) / (redundancy[index] as number);
  const after = { ...base, residuals: errors };
  return named.map(({ index, w }) => ({
    index,
    w,
    redundancy: redundancy[index] as number,
    tied: [],
    before: base,
    after,
  }));
};

/** More are not named at first sight. */
const MOST_AT_SIGHT = 20;

/**
 * Iterative data snooping (Baarda 1968; Teunissen 2006): the largest |w| above the critical value is set aside and the
 * rest solved again, until none exceeds it; then each is tried again, last first, and taken back where its |w| no
 * longer exceeds it.
 */
export const snoop = (start: Adjustment, system: System): readonly SetAside[] => {
  const { network } = start;
  const active = network.observations.map(() => true);
  const again = (from: Adjustment): Adjustment =>
    adjust(network, from.values, { system, active: [...active], from: 'near' });
  let now = start;
  let found: SetAside[] = [];
  while (!isSpent(system.meter)) {
    const ws = active.map((on, i) => (on ? Math.abs(wOf(now, i) ?? 0) : 0));
    const most = Math.max(...ws, 0);
    if (!(most > CRITICAL)) break;
    const tied = ws.flatMap((w, i) => (w > 0 && isTied(w, most) ? [i] : []));
    const [index] = tied;
    if (index === undefined) break;
    active[index] = false;
    const after = again(now);
    found.push({
      index,
      w: wOf(now, index) ?? 0,
      redundancy: now.redundancy[index] as number,
      tied: tied.slice(1),
      before: now,
      after,
    });
    now = after;
  }
  for (const one of [...found].reverse()) {
    if (isSpent(system.meter)) break;
    active[one.index] = true;
    const back = again(now);
    if (Math.abs(wOf(back, one.index) ?? 0) > CRITICAL) {
      active[one.index] = false;
      continue;
    }
    now = back;
    found = found.filter((f) => f !== one);
  }
  return found;
};
