import type { Columns } from './joints.js';
import { type Pose, greatestExcess, leastSquaresPose } from './pose.js';

/** How far to go: `sign` stops as soon as it is certain whether the greatest excess can be brought to 0 or below. */
export type Goal = 'sign' | 'value';

export interface Minimax {
  /** Greatest excess of the joints that are not hard at the pose found, mm: never below the least possible. */
  readonly value: number;
  /** No pose near this one does better than this, mm. */
  readonly bound: number;
  readonly pose: Pose;
  /** How much each joint holds the plate from doing better; those of the joints that are not hard add up to 1. */
  readonly weights: Float64Array;
}

/** How near value and bound must come, mm. */
const gapWanted = 1e-7;
/** Where the barrier's own gap, 2 n / τ, is less than this, no more can be gained in double precision, mm. */
const gapReached = 1e-9;
/** Weight of the linear objective grows by this from one centre to the next. */
const growth = 12;
/** A step this short (squared) has come near enough to the centre. */
const centred = 0.25;
const mostSteps = 200;
const mostTurns = 8;

/** The state of one solver: reused from trial to trial, so that a trial allocates nothing. */
interface Work {
  /** Offsets of hole from pin at the present pose, and their slope in the turn (for a turn that moves the farthest hole by 1 mm). */
  readonly bx: Float64Array;
  readonly by: Float64Array;
  readonly qx: Float64Array;
  readonly qy: Float64Array;
  readonly weights: Float64Array;
  /** Shift, turn (as mm at the farthest hole) and level s; the Hessian's upper triangle; the gradient, then the step. */
  readonly z: Float64Array;
  readonly h: Float64Array;
  readonly g: Float64Array;
}

const workFor = (n: number): Work => ({
  bx: new Float64Array(n),
  by: new Float64Array(n),
  qx: new Float64Array(n),
  qy: new Float64Array(n),
  weights: new Float64Array(n),
  z: new Float64Array(4),
  h: new Float64Array(16),
  g: new Float64Array(4),
});

/** Offsets and slopes about a pose; a slot keeps only what lies across it. Returns the arm: the farthest hole from the turning centre. */
const linearise = (c: Columns, p: Pose, w: Work): number => {
  const cos = Math.cos(p.turn);
  const sin = Math.sin(p.turn);
  let arm = 0;
  for (let i = 0; i < c.n; i += 1) {
    const x = c.hx[i]! - p.ox;
    const y = c.hy[i]! - p.oy;
    const rx = cos * x - sin * y;
    const ry = sin * x + cos * y;
    w.bx[i] = rx + p.ox + p.tx - c.px[i]!;
    w.by[i] = ry + p.oy + p.ty - c.py[i]!;
    w.qx[i] = -ry;
    w.qy[i] = rx;
    arm = Math.max(arm, rx * rx + ry * ry);
  }
  arm = Math.sqrt(arm);
  const k = arm > 0 ? 1 / arm : 0;
  for (let i = 0; i < c.n; i += 1) {
    w.qx[i]! *= k;
    w.qy[i]! *= k;
  }
  return arm;
};

/** Greatest excess at z of the linearised problem over the joints that are not hard. */
const level = (c: Columns, w: Work, tx: number, ty: number, phi: number): number => {
  let most = -Infinity;
  for (let i = 0; i < c.n; i += 1) {
    if (c.hard[i] === 1) continue;
    const vx = w.bx[i]! + tx + phi * w.qx[i]!;
    const vy = w.by[i]! + ty + phi * w.qy[i]!;
    const ax = c.ax[i]!;
    const ay = c.ay[i]!;
    const off = ax === 0 && ay === 0 ? Math.sqrt(vx * vx + vy * vy) : Math.abs(vx * ax + vy * ay);
    most = Math.max(most, off - c.room[i]!);
  }
  return most;
};

/** Whether every hard joint holds at z of the linearised problem with something to spare. */
const hardHold = (c: Columns, w: Work): boolean => {
  for (let i = 0; i < c.n; i += 1) {
    if (c.hard[i] === 0) continue;
    const vx = w.bx[i]! + w.z[0]! + w.z[2]! * w.qx[i]!;
    const vy = w.by[i]! + w.z[1]! + w.z[2]! * w.qy[i]!;
    const ax = c.ax[i]!;
    const ay = c.ay[i]!;
    const off = ax === 0 && ay === 0 ? Math.sqrt(vx * vx + vy * vy) : Math.abs(vx * ax + vy * ay);
    if (!(off < c.room[i]! * (1 - 1e-12))) return false;
  }
  return true;
};

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

/** The barrier −Σ log((room + s)² − |v|²) + τ s, or Infinity outside. */
const barrier = (c: Columns, w: Work, tau: number, tx: number, ty: number, phi: number, s: number): number => {
  let sum = tau * s;
  let product = 1;
  for (let i = 0; i < c.n; i += 1) {
    let vx = w.bx[i]! + tx + phi * w.qx[i]!;
    let vy = w.by[i]! + ty + phi * w.qy[i]!;
    const ax = c.ax[i]!;
    const ay = c.ay[i]!;
    if (ax !== 0 || ay !== 0) {
      vx = vx * ax + vy * ay;
      vy = 0;
    }
    const r = c.room[i]! + (c.hard[i] === 1 ? 0 : s);
    const d = r * r - vx * vx - vy * vy;
    if (r <= 0 || d <= 0) return Infinity;
    product *= d;
    if (product < 1e-200 || product > 1e200) {
      sum -= Math.log(product);
      product = 1;
    }
  }
  return sum - Math.log(product);
};

/** Gradient and Hessian of the barrier at z. */
const assemble = (c: Columns, w: Work, tau: number): void => {
  const { z, h, g } = w;
  const tx = z[0]!;
  const ty = z[1]!;
  const phi = z[2]!;
  const s = z[3]!;
  let h00 = 0;
  let h01 = 0;
  let h02 = 0;
  let h03 = 0;
  let h11 = 0;
  let h12 = 0;
  let h13 = 0;
  let h22 = 0;
  let h23 = 0;
  let h33 = 0;
  let g0 = 0;
  let g1 = 0;
  let g2 = 0;
  let g3 = 0;
  for (let i = 0; i < c.n; i += 1) {
    let vx = w.bx[i]! + tx + phi * w.qx[i]!;
    let vy = w.by[i]! + ty + phi * w.qy[i]!;
    let qx = w.qx[i]!;
    let qy = w.qy[i]!;
    const ax = c.ax[i]!;
    const ay = c.ay[i]!;
    const round = ax === 0 && ay === 0;
    if (!round) {
      const v = vx * ax + vy * ay;
      const q = qx * ax + qy * ay;
      vx = v * ax;
      vy = v * ay;
      qx = q * ax;
      qy = q * ay;
    }
    const soft = c.hard[i] === 0;
    const room = c.room[i]!;
    const r = soft ? room + s : room;
    const vv = vx * vx + vy * vy;
    const d = r * r - vv;
    const a = 2 / d;
    const b = a * a;
    const vq = vx * qx + vy * qy;
    g0 += a * vx;
    g1 += a * vy;
    g2 += a * vq;
    h00 += (round ? a : a * ax * ax) + b * vx * vx;
    h01 += (round ? 0 : a * ax * ay) + b * vx * vy;
    h11 += (round ? a : a * ay * ay) + b * vy * vy;
    h02 += a * qx + b * vx * vq;
    h12 += a * qy + b * vy * vq;
    h22 += a * (qx * qx + qy * qy) + b * vq * vq;
    if (soft) {
      const k = b * r;
      g3 -= a * r;
      h03 -= k * vx;
      h13 -= k * vy;
      h23 -= k * vq;
      h33 += b * r * r - a;
    }
  }
  h[0] = h00;
  h[1] = h01;
  h[2] = h02;
  h[3] = h03;
  h[5] = h11;
  h[6] = h12;
  h[7] = h13;
  h[10] = h22;
  h[11] = h23;
  h[15] = h33;
  g[0] = g0;
  g[1] = g1;
  g[2] = g2;
  g[3] = g3 + tau;
};

/**
 * A lower bound of the level from the multipliers λ and u that the Newton step leads to: their sums over shift and turn
 * vanish, so with |u| ≤ λ for every joint Σ (u·v − λ room) / Σ λ is nowhere above the greatest excess, wherever the
 * plate lies. −Infinity where a joint has |u| > λ, which a short step never does. Leaves λ in `weights`.
 */
const lowerBound = (c: Columns, w: Work): number => {
  const { z, g } = w;
  let value = 0;
  let total = 0;
  for (let i = 0; i < c.n; i += 1) {
    let vx = w.bx[i]! + z[0]! + z[2]! * w.qx[i]!;
    let vy = w.by[i]! + z[1]! + z[2]! * w.qy[i]!;
    let dx = g[0]! + g[2]! * w.qx[i]!;
    let dy = g[1]! + g[2]! * w.qy[i]!;
    const ax = c.ax[i]!;
    const ay = c.ay[i]!;
    if (ax !== 0 || ay !== 0) {
      vx = vx * ax + vy * ay;
      vy = 0;
      dx = dx * ax + dy * ay;
      dy = 0;
    }
    const soft = c.hard[i] === 0;
    const room = c.room[i]!;
    const r = soft ? room + z[3]! : room;
    const dr = soft ? g[3]! : 0;
    const a = 2 / (r * r - vx * vx - vy * vy);
    const turn = a * a * (r * dr - vx * dx - vy * dy);
    const lambda = a * (r + dr) - turn * r;
    const ux = a * (vx + dx) - turn * vx;
    const uy = a * (vy + dy) - turn * vy;
    if (!(lambda > 0) || ux * ux + uy * uy > lambda * lambda * (1 + 1e-9)) return -Infinity;
    w.weights[i] = lambda;
    value += ux * vx + uy * vy - lambda * room;
    if (soft) total += lambda;
  }
  return value / total;
};

/** Solves the Newton system in place by Cholesky; g becomes the step. Returns the square of its length in the barrier's own measure. */
const step = (w: Work): number => {
  const { h, g } = w;
  for (let j = 0; j < 4; j += 1) {
    let d = h[5 * j]!;
    const own = d;
    for (let k = 0; k < j; k += 1) d -= h[4 * k + j]! ** 2;
    // A direction in which nothing changes (one hole turned about itself) is left alone.
    const root = d > 1e-13 * own && own > 0 ? Math.sqrt(d) : Infinity;
    h[5 * j] = root;
    for (let i = j + 1; i < 4; i += 1) {
      let e = h[4 * j + i]!;
      for (let k = 0; k < j; k += 1) e -= h[4 * k + j]! * h[4 * k + i]!;
      h[4 * j + i] = e / root;
    }
  }
  let decrement = 0;
  for (let j = 0; j < 4; j += 1) {
    let v = -g[j]!;
    for (let k = 0; k < j; k += 1) v -= h[4 * k + j]! * g[k]!;
    v /= h[5 * j]!;
    g[j] = v;
    decrement += v * v;
  }
  for (let j = 3; j >= 0; j -= 1) {
    let v = g[j]!;
    for (let i = j + 1; i < 4; i += 1) v -= h[4 * j + i]! * g[i]!;
    g[j] = v / h[5 * j]!;
  }
  return decrement;
};

/**
 * Follows the barrier's centres to the least level s of the linearised problem, from the shift and turn in z and a level above
 * every excess. Leaves the pose in z and returns the lower bound.
 */
const follow = (c: Columns, w: Work, goal: Goal): number => {
  const { z, g } = w;
  const start = level(c, w, z[0]!, z[1]!, z[2]!);
  let spread = 0;
  for (let i = 0; i < c.n; i += 1) {
    if (c.hard[i] === 1) continue;
    spread = Math.max(spread, Math.abs(c.room[i]!) + Math.sqrt(w.bx[i]! ** 2 + w.by[i]! ** 2));
  }
  z[3] = start + Math.max(0.2 * spread, 1e-6);
  let tau = 0;
  let best = -Infinity;
  let reached = start;
  for (let n = 0; n < mostSteps; n += 1) {
    assemble(c, w, tau);
    if (tau === 0) {
      tau = -g[3]!;
      g[3] = 0;
    }
    const decrement = step(w);
    if (decrement < 1) best = Math.max(best, lowerBound(c, w));
    let size = 1;
    if (decrement > 0.06) {
      const [x = 0, y = 0, phi = 0, s = 0] = z;
      const [dx = 0, dy = 0, dphi = 0, ds = 0] = g;
      const here = barrier(c, w, tau, x, y, phi, s);
      while (size > 1e-12 && !(barrier(c, w, tau, x + size * dx, y + size * dy, phi + size * dphi, s + size * ds) <= here - 0.1 * size * decrement))
        size *= 0.5;
    }
    for (let k = 0; k < 4; k += 1) z[k]! += size * g[k]!;
    reached = Math.min(reached, level(c, w, z[0]!, z[1]!, z[2]!));
    if (reached - best <= gapWanted || 2 * c.n <= gapReached * tau || (goal === 'sign' && (reached <= 0 || best > 0))) break;
    if (decrement < centred) tau *= growth;
  }
  return best;
};

/** Hard joints that just hold on a straight line may just not hold on the arc: z goes as little way back as makes them hold. */
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
 * The pose that makes the greatest excess of the soft joints least while the hard ones hold (they must hold, with something to
 * spare, at the pose handed in). A second-order cone program in shift, turn and level, solved by following its barrier
 * with a lower bound at every step; the turn is exact: the problem is set up afresh about each answer until the answer stays.
 */
export const minimaxSolver = (n: number): ((c: Columns, start: Pose, goal: Goal) => Minimax) => {
  const w = workFor(n);
  return (c, start, goal) => {
    const pose = aboutHard(c, start);
    let value = greatestExcess(c, pose, false);
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
      value = greatestExcess(c, pose, false);
      /** What a straight line in place of an arc can be wrong by. */
      const bend = arm > 0 ? (phi * phi) / arm : 0;
      bound = low - bend;
      if (bend < gapReached || (goal === 'sign' && bound > 0)) break;
    }
    let total = 0;
    for (let i = 0; i < c.n; i += 1) if (c.hard[i] === 0) total += w.weights[i]!;
    for (let i = 0; i < c.n; i += 1) w.weights[i]! /= total > 0 ? total : 1;
    return { value, bound, pose, weights: w.weights };
  };
};

/** The pose of least squares as a start. */
export const startPose = (c: Columns): Pose => {
  const pose: Pose = { ox: 0, oy: 0, turn: 0, tx: 0, ty: 0 };
  leastSquaresPose(c, 1e-3, pose);
  return pose;
};
