import type { Network } from '../network/network.js';
import { selectedInverse } from '../sparse/inverse.js';
import { placeOf } from '../sparse/pattern.js';
import type { Adjustment } from './adjustment.js';
import { coincidentIn } from './coincident.js';
import { type From, descend } from './descend.js';
import { rankOf } from './nullspace.js';
import { solveScaled } from './solver.js';
import { type System, scalesOf, systemOf } from './system.js';

/** Below this a redundancy number is rounding: nothing checks the reading. */
const UNCHECKED = 1e-9;
/** Redundancy numbers add up to the degrees of freedom; where they miss by more, the arithmetic has broken down. */
const ASTRAY = 1e-4;

/** Cost of the algebra at the end, in iterations; and of each free motion, in products for each entry of the factor. */
const AFTERWARDS = 4;
const MOTION = 6;

/** Pass `system` to save finding the elimination order again; `active[i]` false leaves observation i out of it. */
interface AdjustOptions {
  readonly system?: System;
  readonly active?: readonly boolean[];
  readonly from?: From;
}

/** Least Σ((value − model) / sigma)² from `start`, with the algebra at the end of it. */
export const adjust = (network: Network, start: Float64Array, options: AdjustOptions = {}): Adjustment => {
  const system = options.system ?? systemOf(network);
  const active = options.active ?? [];
  const { values, at, stopped } = descend(system, start, active, options.from);
  const slopes = Float64Array.from(at.slopes);
  for (const i of coincidentIn(network, values)) slopes.fill(0, system.offsets[i], system.offsets[i + 1]);
  const scales = scalesOf(system, slopes);
  const { factor, nullSpace } = rankOf(system, values, slopes, scales);
  const inverse = selectedInverse(factor);
  system.meter.spent += AFTERWARDS * system.cost + MOTION * nullSpace.length * system.pattern.rows.length;
  const cofactor = (i: number, j: number): number => {
    const place = placeOf(system.pattern, i, j);
    if (Number.isNaN(place)) throw new RangeError(`cofactor: unknowns ${i} and ${j} share no reading`);
    const scaled = place < 0 ? inverse.diagonal[~place] : inverse.lower[place];
    return (scaled ?? 0) * (scales[i] as number) * (scales[j] as number);
  };
  const redundancy = new Float64Array(network.observations.length);
  const residuals = new Float64Array(network.observations.length);
  let count = 0;
  for (const [i, o] of network.observations.entries()) {
    const isActive = active[i] !== false;
    residuals[i] = isActive ? (at.weightedResiduals[i] as number) * o.sigma : o.value - o.model(values);
    if (!isActive) continue;
    count++;
    const taken = quadratic(o.unknowns, slopes.subarray(system.offsets[i], system.offsets[i + 1]), cofactor);
    const left = 1 - taken;
    redundancy[i] = left < UNCHECKED ? 0 : left;
  }
  const dof = count - (network.unknowns.count - nullSpace.length);
  const sum = redundancy.reduce((s, r) => s + r, 0);
  const sound = Math.abs(sum - dof) <= ASTRAY * Math.max(1, dof);
  return {
    network,
    values,
    chi2: at.chi2,
    dof,
    stopped: sound
      ? stopped
      : {
          ...stopped,
          converged: false,
          why: 'singular',
        },
    nullSpace,
    solve: (b) => solveScaled(factor, scales, b),
    cofactor,
    redundancy,
    residuals,
  };
};

/** a Q aᵀ for slopes `a` by `unknowns`. */
const quadratic = (
  unknowns: readonly number[],
  a: Float64Array,
  cofactor: (i: number, j: number) => number,
): number => {
  let sum = 0;
  for (const [k, u] of unknowns.entries()) {
    sum += (a[k] as number) ** 2 * cofactor(u, u);
    for (let l = 0; l < k; l++) sum += 2 * (a[k] as number) * (a[l] as number) * cofactor(u, unknowns[l] as number);
  }
  return sum;
};
