import type { Columns } from './joints.js';
import type { Work } from './linear.js';

/** The barrier −Σ log((room + s)² − |v|²) + τ s, or Infinity outside. */
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
export const assemble = (c: Columns, w: Work, tau: number): void => {
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
