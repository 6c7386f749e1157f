import { firstOrderAt, setsLeftOut } from '../adjust/first-order.js';
import { type Equations, type System, isSpent, linearise } from '../adjust/system.js';
import { type LocalMinimum, levenbergMarquardt } from './levenberg-marquardt.js';

/**
 * A reading that fits worse counts no more than this, as χ²: a slip is about so unlikely beside sound reading (see
 * `explain`).
 */
export const SLIP_COST = 18;

/** An arrangement that all but a few readings fit. */
export interface Truncated extends LocalMinimum {
  /** χ² of the readings that take part, and `SLIP_COST` for each that does not. */
  readonly cost: number;
  /** Places of the observations that take part. */
  readonly active: readonly boolean[];
  readonly left: number;
}

/** How fast the loss narrows from one that counts every reading in full, and the iterations at each width. */
const NARROWER = 2.2;
const ITERATIONS = 3;
const MOST_STAGES = 24;

const reweighted = (equations: Equations, weights: Float64Array): Equations => ({
  ...equations,
  observations: equations.observations.map((o, i) => ({ ...o, sigma: o.sigma / Math.sqrt(weights[i] as number) })),
});

const counted = (equations: Equations, x: Float64Array): readonly boolean[] =>
  Array.from(linearise(equations, x, []).weightedResiduals, (m) => m * m <= SLIP_COST);

/**
 * From a start to the arrangement that most readings fit, those that do not counting no more than `SLIP_COST` each:
 * truncated least squares, by graduated non-convexity with the loss of Geman and McClure (Black & Rangarajan 1996;
 * Yang, Antonante, Tzoumas & Carlone 2020, from memory). Unlike leaving out one reading after another, it is not misled
 * by two slips that hide each other.
 */
export const truncated = (equations: Equations, from: Float64Array): Truncated => {
  let x = levenbergMarquardt(equations, from, 25).x;
  const first = linearise(equations, x, []).weightedResiduals;
  let wide = (2 * first.reduce((most, m) => Math.max(most, m * m), 0)) / SLIP_COST;
  for (let stage = 0; wide > 1 && stage < MOST_STAGES && !isSpent(equations.meter); stage++) {
    const c = wide * SLIP_COST;
    const weights = linearise(equations, x, []).weightedResiduals.map((m) => Math.max((c / (m * m + c)) ** 2, 1e-9));
    x = levenbergMarquardt(reweighted(equations, weights), x, ITERATIONS, 1e-4).x;
    wide /= NARROWER;
  }
  return settledOn(equations, x, counted(equations, x));
};

/** The end downhill without some readings, those that do not fit there left out instead until they stay the same. */
const settledOn = (equations: Equations, from: Float64Array, without: readonly boolean[]): Truncated => {
  let [x, active] = [from, without];
  for (let pass = 0; pass < 4; pass++) {
    x = levenbergMarquardt(equations, x, 25, 1e-7, active).x;
    const next = counted(equations, x);
    if (next.every((on, i) => on === active[i])) break;
    active = next;
  }
  const { weightedResiduals } = linearise(equations, x, []);
  const chi2 = weightedResiduals.reduce((sum, m) => sum + m * m, 0);
  const cost = weightedResiduals.reduce((sum, m) => sum + Math.min(m * m, SLIP_COST), 0);
  return { x, chi2, cost, active, left: active.filter((on) => !on).length };
};

/**
 * Sets of so many readings are tried, the best of each size, where to first order they come so near; on a face of more
 * observations slips lie too far apart to hide each other.
 */
const FEWER = { kept: 30, tried: 3, near: 20, observations: 120 } as const;

/**
 * The same arrangement with the fewest readings left out that the rest then fit. Where few readings check each other,
 * two slips pull the shape so far that sound readings stand out more than they, and narrowing the loss step by step
 * leaves out several of those: here every pair is weighed instead.
 */
export const fewestLeftOut = (system: System, found: Truncated): Truncated => {
  if (found.left < 2 || system.observations.length > FEWER.observations || isSpent(system.meter)) return found;
  const first = firstOrderAt(system, found.x);
  const sets = setsLeftOut(first, FEWER.kept, (wrong, { fall }) => fall - SLIP_COST * wrong.length);
  return [...sets]
    .flatMap((level) => level.slice(0, FEWER.tried))
    .filter(({ weight }) => first.chi2 - weight < found.cost + FEWER.near)
    .map(({ wrong }) => {
      const active = system.observations.map((_, i) => !wrong.includes(i));
      return settledOn(system, found.x, active);
    })
    .reduce((a, b) => (b.cost < a.cost ? b : a), found);
};
