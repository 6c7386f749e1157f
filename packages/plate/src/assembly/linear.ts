import type { Columns, Pose } from './pose.js';

/** The state of one solver: reused from trial to trial, so that a trial allocates nothing. */
export interface Work {
  /**
   * Offsets of hole from pin at the present pose, and their slope in the turn (for a turn that moves the farthest hole
   * by 1 mm).
   */
  readonly bx: Float64Array;
  readonly by: Float64Array;
  readonly qx: Float64Array;
  readonly qy: Float64Array;
  readonly weights: Float64Array;
  /**
   * Shift, turn (as mm at the farthest hole) and level s; the Hessian's upper triangle; the gradient, then the step.
   */
  readonly z: Float64Array;
  readonly h: Float64Array;
  readonly g: Float64Array;
}

export const workFor = (n: number): Work => ({
  bx: new Float64Array(n),
  by: new Float64Array(n),
  qx: new Float64Array(n),
  qy: new Float64Array(n),
  weights: new Float64Array(n),
  z: new Float64Array(4),
  h: new Float64Array(16),
  g: new Float64Array(4),
});

/**
 * Offsets and slopes about a pose; a slot keeps only what lies across it. Returns the arm: the farthest hole from the
 * turning centre.
 */
export const linearise = (c: Columns, p: Pose, w: Work): number => {
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
export const level = (c: Columns, w: Work, tx: number, ty: number, phi: number): number => {
  let most = -Infinity;
  for (let i = 0; i < c.n; i += 1) {
    if (c.hard[i] === 1) continue;
    const vx = w.bx[i]! + tx + phi * w.qx[i]!;
    const vy = w.by[i]! + ty + phi * w.qy[i]!;
    const ax = c.ax[i]!;
    const ay = c.ay[i]!;
    const off = ax === 0 && ay === 0 ? Math.sqrt(vx * vx + vy * vy) : Math.abs(vx * ax + vy * ay);
    most = Math.max(most, off - c.clearance[i]!);
  }
  return most;
};

/** Whether every hard joint holds at z of the linearised problem with something to spare. */
export const hardHold = (c: Columns, w: Work): boolean => {
  for (let i = 0; i < c.n; i += 1) {
    if (c.hard[i] === 0) continue;
    const vx = w.bx[i]! + w.z[0]! + w.z[2]! * w.qx[i]!;
    const vy = w.by[i]! + w.z[1]! + w.z[2]! * w.qy[i]!;
    const ax = c.ax[i]!;
    const ay = c.ay[i]!;
    const off = ax === 0 && ay === 0 ? Math.sqrt(vx * vx + vy * vy) : Math.abs(vx * ax + vy * ay);
    if (!(off < c.clearance[i]! * (1 - 1e-12))) return false;
  }
  return true;
};
