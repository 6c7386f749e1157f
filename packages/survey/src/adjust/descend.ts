import { backSubstitute } from '../sparse/factor.js';
import type { StoppedWhy } from '../types.js';
import type { Stopped } from './adjustment.js';
import { curvatureMatrix } from './curvature.js';
import { stepFrom } from './solver.js';
import {
  type Linearised,
  type System,
  chi2At,
  isSpent,
  linearise,
  normalMatrix,
  gradient,
  scalesOf,
} from './system.js';

interface Descent {
  readonly values: Float64Array;
  readonly at: Linearised;
  readonly stopped: Stopped;
}

/** The most iterations; fewer where the work budget is spent. */
const MOST_ITERATIONS = 300;
/** From near a minimum few are needed: so many are made whatever the budget. */
const LEAST = 8;
/** After so many iterations without convergence the second derivatives are used. */
const PATIENCE = 25;
/** Converged: the next step is below 1e-9 of a standard uncertainty. */
const REST = 1e-18;
/**
 * What the other unknowns leave of one below this share of its own information is rounding; differences of slopes are
 * coarser.
 */
const FLOOR = 1e-11;
const COARSE_FLOOR = 1e-7;

const SPENT: StoppedWhy = 'iterations spent';
/** The second derivatives cost so many times as much. */
const NEWTON = 3;

const plus = (x: Float64Array, step: Float64Array, k = 1): Float64Array => x.map((v, i) => v + k * (step[i] as number));
const inner = (a: Float64Array, b: Float64Array): number => a.reduce((sum, v, i) => sum + v * (b[i] as number), 0);

interface State {
  readonly x: Float64Array;
  readonly at: Linearised;
}

/**
 * How a descent begins: `near` a minimum already, as when one reading of many is left out, it goes undamped and is not
 * tried for a saddle.
 */
export type From = 'afar' | 'near';

/** Gauss–Newton with damping that fades to none; Newton's own matrix where that lingers. */
const roll = (
  system: System,
  active: readonly boolean[],
  start: State,
  firstDamping: number,
  iterationsLeft: number,
): State & { readonly iterations: number; readonly rested: boolean; readonly why: StoppedWhy } => {
  let { x, at } = start;
  let damping = firstDamping;
  let growth = 2;
  let before = Number.POSITIVE_INFINITY;
  let stuck = false;
  for (let iteration = 1; iteration <= iterationsLeft; iteration++) {
    if (iteration > LEAST && isSpent(system.meter)) return { x, at, iterations: iteration, rested: false, why: SPENT };
    const newton = stuck || iteration > PATIENCE;
    const scales = scalesOf(system, at.slopes);
    const b = gradient(system, at);
    const matrix = newton ? curvatureMatrix(system, x, at, scales) : normalMatrix(system, at.slopes, scales);
    for (;;) {
      system.meter.spent += newton ? NEWTON * system.cost : system.cost;
      const { step, factor } = stepFrom(matrix, damping, newton ? COARSE_FLOOR : FLOOR, scales, b);
      const promised = inner(b, step);
      const next = plus(x, step);
      const then = factor.negative.length === 0 ? linearise(system, next, active) : null;
      if (then !== null && then.chi2 <= at.chi2 + at.roundingBound) {
        const gained = at.chi2 - then.chi2;
        const rested = damping === 0 && promised <= REST * Math.max(1, at.chi2);
        const rounding =
          damping === 0 &&
          Math.abs(gained) <= at.roundingBound &&
          promised <= 1e-8 * (1 + at.chi2) &&
          promised >= before / 2;
        x = next;
        at = then;
        before = promised;
        if (rested) return { x, at, iterations: iteration, rested, why: 'at rest' };
        if (rounding) return { x, at, iterations: iteration, rested: true, why: 'last digit' };
        const gain = gained / Math.max(promised, 1e-300);
        // A step that keeps little of its promise went too far, though it went down.
        if (gain < 0.05 && promised > 1e-6) damping = Math.max(8 * damping, 1e-6);
        else damping = damping < 1e-9 || promised < 1e-6 ? 0 : damping / (gain > 0.75 ? 10 : gain > 0.25 ? 4 : 1);
        growth = 2;
        break;
      }
      damping = Math.max(damping * growth, 1e-9);
      growth *= 2;
      if (damping <= 1e12) continue;
      if (newton)
        return {
          x,
          at,
          iterations: iteration,
          rested: false,
          why: 'no descent',
        };
      stuck = true;
      damping = 0;
      growth = 2;
      break;
    }
  }
  return { x, at, iterations: iterationsLeft, rested: false, why: SPENT };
};

/** A direction along which χ² falls away on both sides, in unknowns; null where there is none. */
const ridge = (system: System, { x, at }: State): Float64Array | null => {
  const scales = scalesOf(system, at.slopes);
  const { factor } = stepFrom(
    curvatureMatrix(system, x, at, scales),
    0,
    COARSE_FLOOR,
    scales,
    new Float64Array(x.length),
  );
  const [position] = factor.negative;
  if (position === undefined) return null;
  const work = new Float64Array(x.length);
  work[position] = 1;
  backSubstitute(factor, work);
  const direction = new Float64Array(x.length);
  for (const [k, u] of factor.pattern.order.entries()) direction[u] = (work[k] as number) * (scales[u] as number);
  return direction;
};

/**
 * The lower side of a ridge: the best of a few steps both ways, from the size of the face down; null where none is
 * lower.
 */
const offRidge = (
  system: System,
  active: readonly boolean[],
  { x, at }: State,
  direction: Float64Array,
): State | null => {
  const size = Math.max(...x.map(Math.abs), 1e-12);
  const most = Math.max(...direction.map(Math.abs));
  let best: { readonly x: Float64Array; readonly chi2: number } | null = null;
  for (let k = 1; k > 1e-7; k /= 4) {
    for (const side of [1, -1]) {
      const next = plus(x, direction, (side * k * size) / most);
      const chi2 = chi2At(system, next, active);
      if (chi2 < at.chi2 * (1 - 1e-12) && (best === null || chi2 < best.chi2)) best = { x: next, chi2 };
    }
  }
  return best === null ? null : { x: best.x, at: linearise(system, best.x, active) };
};

/** From a start to a minimum of χ², which is tried for a saddle before it counts. */
export const descend = (
  system: System,
  start: Float64Array,
  active: readonly boolean[],
  from: From = 'afar',
): Descent => {
  let state: State = { x: start, at: linearise(system, start, active) };
  let iterations = 0;
  for (let saddle = 0; saddle < 8; saddle++) {
    const end = roll(system, active, state, from === 'near' ? 0 : 1e-3, MOST_ITERATIONS - iterations);
    iterations += end.iterations;
    if (!end.rested) return { values: end.x, at: end.at, stopped: { converged: false, why: end.why, iterations } };
    const direction = from === 'near' ? null : ridge(system, end);
    const lower = direction === null ? null : offRidge(system, active, end, direction);
    if (lower === null) {
      return {
        values: end.x,
        at: end.at,
        stopped: { converged: true, why: end.why, iterations },
      };
    }
    state = lower;
  }
  return {
    values: state.x,
    at: state.at,
    stopped: { converged: false, why: 'saddle after saddle', iterations },
  };
};
