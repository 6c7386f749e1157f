import type { BestFit, Joint } from '../types.js';
import { type Columns, type Pose, columnsOf, greatestExcess, rowsOf } from './pose.js';
import { type Minimax, minimaxSolver, startPose } from './minimax.js';

/** Weight below which a joint does not count as holding the plate. */
const holds = 0.02;

/** The pose shifted so that the only pin of these columns stands in the middle of its hole. */
const centred = (one: Columns, p: Pose): Pose => {
  const cos = Math.cos(p.turn);
  const sin = Math.sin(p.turn);
  const x = one.hx[0]! - p.ox;
  const y = one.hy[0]! - p.oy;
  return { ...p, tx: one.px[0]! - p.ox - (cos * x - sin * y), ty: one.py[0]! - p.oy - (sin * x + cos * y) };
};

/** Locators first, since they must hold: the pose that lets them in, with the most to spare. */
const locatedPose = (
  c: Columns,
  isLocator: (i: number) => boolean,
): { readonly pose: Pose; readonly enter: boolean } => {
  const locators = rowsOf(c, isLocator);
  const all = startPose(c);
  if (locators.n === 0) return { pose: all, enter: true };
  if (locators.n === 1) return { pose: centred(locators, all), enter: true };
  const found = minimaxSolver(locators.n)(locators, all, 'value');
  return { pose: found.pose, enter: found.value < 0 };
};

interface Laid {
  readonly found: Minimax;
  /** Whether the locators all enter; where not, every joint has been treated alike. */
  readonly located: boolean;
}

/**
 * The pose of columns whose locators (rows for which `isLocator`) must hold while the fasteners are given the most
 * clearance.
 */
export const layOn = (c: Columns, isLocator: (i: number) => boolean): Laid => {
  const { pose, enter } = locatedPose(c, isLocator);
  if (!enter) return { found: minimaxSolver(c.n)(c, startPose(c), 'value'), located: false };
  const hard = { ...c, hard: Uint8Array.from({ length: c.n }, (_, i) => (isLocator(i) ? 1 : 0)) };
  if (hard.hard.every((h) => h === 1))
    return {
      found: { value: greatestExcess(c, pose, 'all'), bound: -Infinity, pose, weights: new Float64Array(c.n) },
      located: true,
    };
  return { found: minimaxSolver(c.n)(hard, pose, 'value'), located: true };
};

/** The same motion as a turn about the frame's origin and a shift after it. */
const motionOfPose = (
  p: Pose,
): { readonly turn: number; readonly shift: { readonly x: number; readonly y: number } } => {
  const cos = Math.cos(p.turn);
  const sin = Math.sin(p.turn);
  return {
    turn: p.turn,
    shift: { x: p.ox + p.tx - (cos * p.ox - sin * p.oy), y: p.oy + p.ty - (sin * p.ox + cos * p.oy) },
  };
};

/**
 * Lays the plate on the part as well as it can be: the shift and turn with the most clearance left at the fastener that
 * has least, the locators kept. Every pin at its stated place, every hole at its least.
 */
export const bestFit = (joints: readonly Joint[]): BestFit => {
  if (joints.length === 0) return { slack: Infinity, turn: 0, shift: { x: 0, y: 0 }, tight: [] };
  const c = columnsOf(joints);
  const { found } = layOn(c, (i) => joints[i]?.role === 'locator');
  const byWeight = [...found.weights]
    .map((weight, i) => ({ weight, id: joints[i]?.id ?? '' }))
    .sort((a, b) => b.weight - a.weight);
  return {
    slack: 0 - found.value,
    ...motionOfPose(found.pose),
    tight: byWeight.filter((w) => w.weight >= holds).map((w) => w.id),
  };
};
