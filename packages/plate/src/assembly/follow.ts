import { type Work, level } from './linear.js';
import type { Columns } from './pose.js';

/**
 * Solves the Newton system in place by Cholesky; g becomes the step. Returns the square of its length in the barrier's
 * own measure.
 */
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
 * A lower bound of the level from the multipliers λ and u that the Newton step leads to: their sums over shift and turn
 * vanish, so with |u| ≤ λ for every joint Σ (u·v − λ clearance) / Σ λ is nowhere above the greatest excess, wherever
 * the plate lies. −Infinity where a joint has |u| > λ, which a short step never does. Leaves λ in `weights`.
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
    const clearance = c.clearance[i]!;
    const r = soft ? clearance + z[3]! : clearance;
    const dr = soft ? g[3]! : 0;
    const a = 2 / (r * r - vx * vx - vy * vy);
    const turn = a * a * (r * dr - vx * dx - vy * dy);
    const lambda = a * (r + dr) - turn * r;
    const ux = a * (vx + dx) - turn * vx;
    const uy = a * (vy + dy) - turn * vy;
    if (!(lambda > 0) || ux * ux + uy * uy > lambda * lambda * (1 + 1e-9)) return -Infinity;
    w.weights[i] = lambda;
    value += ux * vx + uy * vy - lambda * clearance;
    if (soft) total += lambda;
  }
  return value / total;
};

/** The barrier −Σ log((clearance + s)² − |v|²) + τ s, or Infinity outside. */
export const barrier = (c: Columns, w: Work, tau: number, tx: number, ty: number, phi: number, s: number): number => {
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
    const r = c.clearance[i]! + (c.hard[i] === 1 ? 0 : s);
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
    const clearance = c.clearance[i]!;
    const r = soft ? clearance + s : clearance;
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

/** How far to go: `sign` stops as soon as it is certain whether the greatest excess can be brought to 0 or below. */
export type Goal = 'sign' | 'value';

/** How near value and bound must come, mm. */
export const gapWanted = 1e-7;
/** Where the barrier's own gap, 2 n / τ, is less than this, no more can be gained in double precision, mm. */
export const gapReached = 1e-9;
/** Weight of the linear objective grows by this from one centre to the next. */
const growth = 12;
/** A step this short (squared) has come near enough to the centre. */
const centred = 0.25;
const mostSteps = 200;

/**
 * Follows the barrier's centres to the least level s of the linearised problem, from the shift and turn in z and a
 * level above every excess. Leaves the pose in z and returns the lower bound.
 */
export const follow = (c: Columns, w: Work, goal: Goal): number => {
  const { z, g } = w;
  const start = level(c, w, z[0]!, z[1]!, z[2]!);
  let spread = 0;
  for (let i = 0; i < c.n; i += 1) {
    if (c.hard[i] === 1) continue;
    spread = Math.max(spread, Math.abs(c.clearance[i]!) + Math.sqrt(w.bx[i]! ** 2 + w.by[i]! ** 2));
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
      while (
        size > 1e-12 &&
        !(
          barrier(c, w, tau, x + size * dx, y + size * dy, phi + size * dphi, s + size * ds) <=
          here - 0.1 * size * decrement
        )
      )
        size *= 0.5;
    }
    for (let k = 0; k < 4; k += 1) z[k]! += size * g[k]!;
    reached = Math.min(reached, level(c, w, z[0]!, z[1]!, z[2]!));
    if (reached - best <= gapWanted || 2 * c.n <= gapReached * tau || (goal === 'sign' && (reached <= 0 || best > 0)))
      break;
    if (decrement < centred) tau *= growth;
  }
  return best;
};
