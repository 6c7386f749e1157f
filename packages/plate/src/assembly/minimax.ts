import { type Goal, follow, gapReached, gapWanted } from './follow.js';
import { type Columns, type Pose, greatestExcess, leastSquaresPose } from './pose.js';
import { type Work, hardHold, linearise, workFor } from './linear.js';

export interface Minimax {
  /** Greatest excess of the joints that are not hard at the pose found, mm: never below the least possible. */
  readonly value: number;
  /** No pose near this one does better than this, mm. */
  readonly bound: number;
  readonly pose: Pose;
  /** How much each joint holds the plate from doing better; those of the joints that are not hard add up to 1. */
  readonly weights: Float64Array;
}

const mostTurns = 8;

/** The same pose about the first round hole that is hard, so that turning does not move what must stay. */
const aboutHard = (c: Columns, p: Pose): Pose => {
  for (let i = 0; i < c.n; i += 1) {
    if (c.hard[i] === 0 || c.ax[i] !== 0 || c.ay[i] !== 0) continue;
    const ox = c.hx[i]!;
    const oy = c.hy[i]!;
    const cos = Math.cos(p.turn);
    const sin = Math.sin(p.turn);
    const x = ox - p.ox;
    const y = oy - p.oy;
    return { ox, oy, turn: p.turn, tx: cos * x - sin * y + p.ox + p.tx - ox, ty: sin * x + cos * y + p.oy + p.ty - oy };
  }
  return { ...p };
};

/**
 * Hard joints that just hold on a straight line may just not hold on the arc: z goes as little way back as makes them
 * hold.
 */
const stepBack = (c: Columns, w: Work): boolean => {
  const { z } = w;
  for (let k = 0; k < 3; k += 1) z[k]! *= -1 / 16;
  for (let share = 1 / 16; share <= 1; share *= 2) {
    if (hardHold(c, w)) return true;
    for (let k = 0; k < 3; k += 1) z[k]! *= 2;
  }
  return false;
};

/**
 * The pose that makes the greatest excess of the soft joints least while the hard ones hold (they must hold, with
 * something to spare, at the pose handed in). A second-order cone program in shift, turn and level, solved by following
 * its barrier with a lower bound at every step; the turn is exact: the problem is set up afresh about each answer until
 * the answer stays.
 */
export const minimaxSolver = (n: number): ((c: Columns, start: Pose, goal: Goal) => Minimax) => {
  const w = workFor(n);
  return (c, start, goal) => {
    const pose = aboutHard(c, start);
    let value = greatestExcess(c, pose, 'soft');
    let best = { ...pose };
    let bound = -Infinity;
    for (let turns = 0; turns < mostTurns; turns += 1) {
      if (goal === 'sign' && value <= 0) break;
      const arm = linearise(c, pose, w);
      if (turns === 0) w.z.fill(0);
      else if (!stepBack(c, w)) break;
      const low = follow(c, w, goal);
      const phi = w.z[2]!;
      pose.tx += w.z[0]!;
      pose.ty += w.z[1]!;
      pose.turn += arm > 0 ? phi / arm : 0;
      const reached = greatestExcess(c, pose, 'soft');
      // A first answer off the arc may let the hard joints out by a hair and look the better for it: it does not count.
      if (reached <= value && greatestExcess(c, pose, 'hard') <= gapWanted) {
        value = reached;
        best = { ...pose };
      }
      /** What a straight line in place of an arc can be wrong by. */
      const bend = arm > 0 ? (phi * phi) / arm : 0;
      bound = low - bend;
      if (bend < gapReached || (goal === 'sign' && bound > 0)) break;
    }
    let total = 0;
    for (let i = 0; i < c.n; i += 1) if (c.hard[i] === 0) total += w.weights[i]!;
    for (let i = 0; i < c.n; i += 1) w.weights[i]! /= total > 0 ? total : 1;
    return { value, bound, pose: best, weights: w.weights };
  };
};

/** The pose of least squares as a start. */
export const startPose = (c: Columns): Pose => {
  const pose: Pose = { ox: 0, oy: 0, turn: 0, tx: 0, ty: 0 };
  leastSquaresPose(c, 1e-3, pose);
  return pose;
};
