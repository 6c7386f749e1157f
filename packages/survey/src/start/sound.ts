import { chiSquareQuantile } from '@fayplate/core';
import { damped } from '../adjust/solver.js';
import { type Equations, linearise, normalMatrix, scalesOf } from '../adjust/system.js';
import { factorise } from '../sparse/factor.js';
import { type LocalMinimum, levenbergMarquardt } from './levenberg-marquardt.js';
import type { Truncated } from './truncated.js';

/** Sound readings exceed the limit once in so many faces. */
const SELDOM = 1e-3;
/** With nothing to check them readings must fit exactly, to this χ². */
const EXACT = 1e-3;

/**
 * The χ² that sound readings exceed once in 1/`seldom` faces, by how many of them check the others where the
 * arrangement lies.
 */
export const soundLimit = (equations: Equations, x: Float64Array, left = 0, seldom = SELDOM): number => {
  equations.meter.spent += equations.cost;
  const at = linearise(equations, x, []);
  const scales = scalesOf(equations, at.slopes);
  const { dropped } = factorise(damped(normalMatrix(equations, at.slopes, scales), 0), 1e-8);
  const dof = equations.observations.length - left - (x.length - dropped.length);
  return dof > 0 ? chiSquareQuantile(1 - seldom, dof) : EXACT;
};

/** Of the readings so many may be slips. */
const SLIPS = 0.1;

/** Whether all readings but a few, those that fit worst, are sound, and enough are left to say so. */
export const restIsSound = (equations: Equations, { x, active, left }: Truncated): boolean => {
  if (left > Math.max(1, SLIPS * equations.observations.length)) return false;
  const { weightedResiduals } = linearise(equations, x, active);
  const limit = soundLimit(equations, x, left);
  return limit > EXACT && weightedResiduals.reduce((sum, m) => sum + m * m, 0) <= limit;
};

/**
 * Whether leaving out a few readings, the worst one after another, makes the rest sound: the arrangement is right and
 * they were misread.
 */
export const soundButForFew = (equations: Equations, at: LocalMinimum): boolean => {
  const most = Math.max(1, Math.floor(equations.observations.length / 20));
  const active = equations.observations.map(() => true);
  let now = at;
  for (let left = 1; left <= most; left++) {
    const { weightedResiduals } = linearise(equations, now.x, active);
    let worst = 0;
    for (const [i, m] of weightedResiduals.entries())
      if (Math.abs(m) > Math.abs(weightedResiduals[worst] ?? 0)) worst = i;
    active[worst] = false;
    now = levenbergMarquardt(equations, now.x, 10, 1e-4, active);
    if (now.chi2 <= soundLimit(equations, now.x, left)) return true;
  }
  return false;
};
