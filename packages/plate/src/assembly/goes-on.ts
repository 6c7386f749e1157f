import { randomFrom } from '@fayplate/core';
import type { GoesOn, GoesOnSpec } from '../types.js';
import { bestFit, layOn } from './best-fit.js';
import { drawer } from './chance.js';
import { type Columns, columnsOf } from './joints.js';
import { minimaxSolver } from './minimax.js';
import { type Pose, greatestExcess, leastSquaresPose, pairThatForbids } from './pose.js';
import { shareOf } from './share.js';

export interface GoesOnOptions {
  readonly trials?: number;
  readonly seed?: number;
  readonly progress?: (done: number, of: number) => void;
  /** Fits that might be used instead, smallest first: a name and each joint's radial room, in the order of the joints. */
  readonly fits?: readonly { readonly name: string; readonly rooms: readonly (readonly [number, number])[] }[];
}

export const usualTrials = 5000;
/** What counts as certain enough to build: three standard deviations. */
export const enough = 0.997;
/** Trials for which the room that is wanting is worked out, and for each fit that is tried instead. */
const closeLook = 5000;
/** Largest number of joints for which every pair is looked at first. */
const fewJoints = 64;

interface Run {
  readonly trials: number;
  readonly hits: number;
  /** Share of the blame for the failures, by joint. */
  readonly blame: Float64Array;
  /** For each trial of the first few that failed: radial room wanting, mm. */
  readonly wanting: readonly number[];
}

/** Fasteners bear the blame, for a locator is what they are measured against; locators only where it is they that do not enter. */
const charge = (blame: Float64Array, weights: ArrayLike<number>, isLocator: (i: number) => boolean): void => {
  let fasteners = 0;
  let all = 0;
  for (let i = 0; i < weights.length; i += 1) {
    all += weights[i]!;
    if (!isLocator(i)) fasteners += weights[i]!;
  }
  const theirs = fasteners > 0.05 * all;
  for (let i = 0; i < weights.length; i += 1) if (!theirs || !isLocator(i)) blame[i]! += weights[i]! / (theirs ? fasteners : all);
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

const run = (spec: GoesOnSpec, trials: number, seed: number, look: number, progress?: (done: number, of: number) => void): Run => {
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
    else if (t < look) wanting.push(wantingRoom(c, isLocator));
    if (progress !== undefined && (t + 1) % 1000 === 0) progress(t + 1, trials);
  }
  return { trials, hits, blame, wanting };
};

/** The probability alone, of the first 5,000 trials at most: for trying what would better it. */
export const chanceOf = (spec: GoesOnSpec, options: Pick<GoesOnOptions, 'trials' | 'seed'> = {}): number => {
  const { hits, trials } = run(spec, Math.min(options.trials ?? usualTrials, closeLook), options.seed ?? 1, 0);
  return hits / trials;
};

/** How much more radial room every fastener would have needed, mm; Infinity where it is the locators that do not enter. */
const wantingRoom = (c: Columns, isLocator: (i: number) => boolean): number => {
  const { found, located } = layOn(c, isLocator);
  return located ? found.value : Infinity;
};

/** Room to add on the diameter so that all but 3 in 1,000 of the trials looked at go on. */
const easeFor = (r: Run): number | null => {
  if (r.hits >= enough * r.trials) return 0;
  const spared = Math.floor((1 - enough) * Math.min(r.trials, closeLook) + 1e-9);
  const radial = [...r.wanting].sort((a, b) => b - a)[spared] ?? 0;
  return Number.isFinite(radial) ? 2 * Math.max(radial, 0) : null;
};

const proposalOf = (spec: GoesOnSpec, options: GoesOnOptions, seed: number, trials: number): string | null => {
  for (const fit of options.fits ?? []) {
    const joints = spec.joints.map((j, i) => ({ ...j, room: fit.rooms[i] ?? j.room }));
    if (chanceOf({ ...spec, joints }, { trials, seed }) >= enough) return fit.name;
  }
  return null;
};

/**
 * Probability that every fastener and locator of one face enters its hole, by as many seeded trials as asked: each draws the
 * pins, the holes' making errors and their diameters, and is decided on its own: either a shift and turn is found that lets all
 * pins in, or it is proved that none does. The same seed gives the same answer. Throws RangeError where the covariance does not fit.
 */
export const goesOn = (spec: GoesOnSpec, options: GoesOnOptions = {}): GoesOn => {
  const { trials = usualTrials, seed = 1 } = options;
  const r = run(spec, trials, seed, closeLook, options.progress);
  const { share, standardError, between } = shareOf(r.hits, trials);
  const blamed = r.blame.reduce((a, b) => a + b, 0);
  const stops = spec.joints
    .map((j, i) => [j.id, blamed > 0 ? (r.blame[i] ?? 0) / blamed : 0] as const)
    .filter(([, part]) => part > 0)
    .sort((a, b) => b[1] - a[1]);
  return {
    probability: share,
    standardError,
    between,
    trials,
    worst: stops[0]?.[0] ?? null,
    stops: new Map(stops),
    nominal: bestFit(spec.joints),
    ease: easeFor(r),
    proposal: share >= enough ? null : proposalOf(spec, options, seed, trials),
  };
};
