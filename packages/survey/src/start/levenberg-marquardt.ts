import { stepFrom } from '../adjust/solver.js';
import { type Equations, chi2At, isSpent, linearise, normalMatrix, gradient, scalesOf } from '../adjust/system.js';

/** An arrangement at a minimum of χ², or near it. */
export interface LocalMinimum {
  readonly x: Float64Array;
  readonly chi2: number;
}

const FLOOR = 1e-11;

/**
 * Downhill from a start by damped Gauss–Newton, for at most `most` iterations or until χ² falls by less than the share
 * `rest` in one: quick and rough, for trying many starts. The adjustment has the last word. Where the search has taken
 * what it may take, it stays where it is. `active[i]` false leaves observation i out.
 */
export const levenbergMarquardt = (
  equations: Equations,
  start: Float64Array,
  most: number,
  rest = 1e-7,
  active: readonly boolean[] = [],
): LocalMinimum => {
  let x = start;
  let at = linearise(equations, x, active);
  let damping = 1e-3;
  for (let turn = 0; turn < most && !isSpent(equations.meter); turn++) {
    const scales = scalesOf(equations, at.slopes);
    const b = gradient(equations, at);
    const matrix = normalMatrix(equations, at.slopes, scales);
    for (;;) {
      equations.meter.spent += equations.cost;
      const { step } = stepFrom(matrix, damping, FLOOR, scales, b);
      const next = x.map((v, i) => v + (step[i] as number));
      const chi2 = chi2At(equations, next, active);
      if (chi2 <= at.chi2) {
        const gained = at.chi2 - chi2;
        x = next;
        damping = Math.max(damping / 8, 1e-9);
        if (gained <= rest * (1 + chi2)) return { x, chi2 };
        break;
      }
      damping *= 8;
      if (damping > 1e8) return { x, chi2: at.chi2 };
    }
    at = linearise(equations, x, active);
  }
  return { x, chi2: at.chi2 };
};
