import { adjust } from '../adjust/adjust.js';
import type { Adjustment } from '../adjust/adjustment.js';
import { type System, isSpent } from '../adjust/system.js';
import { levenbergMarquardt } from '../start/levenberg-marquardt.js';
import { type Explained, explainedBy, foreseenCovariance } from './hypothesis.js';
import { CRITICAL, wOf } from './standardized.js';

/**
 * Readings that stand out nearly as much as the worst, and share no feature with one that stands out more, are left out
 * along with it.
 */
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

/**
 * Many wrong: the set that the robust start leaves out, made smaller and larger by one reading after another until the
 * rest agree.
 */
export const manyWrong = (
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
