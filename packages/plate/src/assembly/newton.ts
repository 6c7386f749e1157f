import type { Columns } from './joints.js';
import type { Work } from './linear.js';

/** Solves the Newton system in place by Cholesky; g becomes the step. Returns the square of its length in the barrier's own measure. */
export const step = (w: Work): number => {
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
 * vanish, so with |u| ≤ λ for every joint Σ (u·v − λ room) / Σ λ is nowhere above the greatest excess, wherever the
 * plate lies. −Infinity where a joint has |u| > λ, which a short step never does. Leaves λ in `weights`.
 */
export const lowerBound = (c: Columns, w: Work): number => {
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
