import { randomFrom } from '@fayplate/core';
import type { GoesOnSpec } from '../types.js';
import { layOn } from './best-fit.js';
import { drawer } from './chance.js';
import { type Columns, type Pose, columnsOf, greatestExcess, leastSquaresPose, pairThatForbids } from './pose.js';
import { minimaxSolver } from './minimax.js';

/** Largest number of joints for which every pair is looked at first. */
const fewJoints = 64;

export interface Run {
  readonly trials: number;
  readonly hits: number;
  /** Share of the blame for the failures, by joint. */
  readonly blame: Float64Array;
  /** For each trial of the first few that failed: radial clearance missing, mm. */
  readonly wanting: readonly number[];
}

/**
 * Fasteners take the blame, since they are measured against the locators; locators only where they themselves do not
 * enter.
 */
const charge = (blame: Float64Array, weights: ArrayLike<number>, isLocator: (i: number) => boolean): void => {
  let fasteners = 0;
  let all = 0;
  for (let i = 0; i < weights.length; i += 1) {
    all += weights[i]!;
    if (!isLocator(i)) fasteners += weights[i]!;
  }
  if (!(all > 0)) return;
  const theirs = fasteners > 0.05 * all;
  for (let i = 0; i < weights.length; i += 1)
    if (!theirs || !isLocator(i)) blame[i]! += weights[i]! / (theirs ? fasteners : all);
};

/** Decides one drawn trial; puts the blame into `blame` where the plate does not go on. */
const decider = (n: number, blame: Float64Array, isLocator: (i: number) => boolean): ((c: Columns) => boolean) => {
  const solve = minimaxSolver(n);
  const pose: Pose = { ox: 0, oy: 0, turn: 0, tx: 0, ty: 0 };
  return (c) => {
    leastSquaresPose(c, 1e-3, pose);
    if (greatestExcess(c, pose, 'all') <= 0) return true;
    const pair = n <= fewJoints ? pairThatForbids(c) : null;
    if (pair !== null) {
      charge(
        blame,
        Array.from({ length: n }, (_, i) => (pair.includes(i) ? 1 : 0)),
        isLocator,
      );
      return false;
    }
    const found = solve(c, pose, 'sign');
    if (found.value <= 0) return true;
    charge(blame, found.weights, isLocator);
    return false;
  };
};

/**
 * How much more radial clearance every fastener would have needed, mm; Infinity where it is the locators that do not
 * enter.
 */
const wantingClearance = (c: Columns, isLocator: (i: number) => boolean): number => {
  const { found, located } = layOn(c, isLocator);
  return located ? found.value : Infinity;
};

/** Draws and decides every trial; of the first `look` that fail it works out the clearance that was missing. */
export const runTrials = (
  spec: GoesOnSpec,
  trials: number,
  seed: number,
  look: number,
  progress?: (done: number, of: number) => void,
): Run => {
  const n = spec.joints.length;
  const c = columnsOf(spec.joints);
  const draw = drawer(spec, c);
  const random = randomFrom(seed);
  const blame = new Float64Array(n);
  const isLocator = (i: number): boolean => spec.joints[i]?.role === 'locator';
  const decide = decider(n, blame, isLocator);
  const wanting: number[] = [];
  let hits = 0;
  for (let t = 0; t < trials; t += 1) {
    draw(random);
    if (decide(c)) hits += 1;
    else if (t < look) wanting.push(wantingClearance(c, isLocator));
    if (progress !== undefined && (t + 1) % 1000 === 0) progress(t + 1, trials);
  }
  return { trials, hits, blame, wanting };
};
