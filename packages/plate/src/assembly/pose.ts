import type { Joint } from '../types.js';

/**
 * The joints as columns of numbers, for a solver that runs a hundred thousand times: hole (hx, hy) in the plate, pin
 * (px, py) on the part, radial clearance, the unit vector across a slot (0, 0 for a round hole), and 1 in `hard` where
 * the joint must hold while the others are made as slack as can be.
 */
export interface Columns {
  readonly n: number;
  readonly hx: Float64Array;
  readonly hy: Float64Array;
  readonly px: Float64Array;
  readonly py: Float64Array;
  readonly clearance: Float64Array;
  readonly ax: Float64Array;
  readonly ay: Float64Array;
  readonly hard: Uint8Array;
}

/** Least clearance of a locator, mm: one that fits tighter leaves no play, and a nanometre is none. */
const noPlay = 1e-6;

export const leastClearance = (j: Joint): number =>
  j.role === 'locator' ? Math.max(j.clearance[0], noPlay) : j.clearance[0];
/** The most radial clearance that a joint leaves, mm; a locator that is tight leaves none. */
export const mostClearance = (j: Joint): number => Math.max(j.clearance[1], leastClearance(j));

/** Columns with every pin at its nominal place and every hole at its least. */
export const columnsOf = (joints: readonly Joint[]): Columns => ({
  n: joints.length,
  hx: Float64Array.from(joints, (j) => j.plate.x),
  hy: Float64Array.from(joints, (j) => j.plate.y),
  px: Float64Array.from(joints, (j) => j.part.x),
  py: Float64Array.from(joints, (j) => j.part.y),
  clearance: Float64Array.from(joints, leastClearance),
  ax: Float64Array.from(joints, (j) => (j.along === null ? 0 : -Math.sin(j.along))),
  ay: Float64Array.from(joints, (j) => (j.along === null ? 0 : Math.cos(j.along))),
  hard: new Uint8Array(joints.length),
});

/** The same columns with only some rows. */
export const rowsOf = (c: Columns, keep: (i: number) => boolean): Columns => {
  const at = Array.from({ length: c.n }, (_, i) => i).filter(keep);
  const pick = (a: Float64Array): Float64Array => Float64Array.from(at, (i) => a[i]!);
  return {
    n: at.length,
    hx: pick(c.hx),
    hy: pick(c.hy),
    px: pick(c.px),
    py: pick(c.py),
    clearance: pick(c.clearance),
    ax: pick(c.ax),
    ay: pick(c.ay),
    hard: Uint8Array.from(at, (i) => c.hard[i]!),
  };
};

/** Where the plate lies on the part: turned by `turn` about (ox, oy), then shifted. */
export interface Pose {
  ox: number;
  oy: number;
  turn: number;
  tx: number;
  ty: number;
}

/**
 * How far the pin of a joint stands from the middle of its hole, less the clearance: ≤ 0 where it enters. Across a slot
 * only where it is one.
 */
const excess = (c: Columns, i: number, p: Pose, cos: number, sin: number): number => {
  const x = c.hx[i]! - p.ox;
  const y = c.hy[i]! - p.oy;
  const vx = cos * x - sin * y + p.ox + p.tx - c.px[i]!;
  const vy = sin * x + cos * y + p.oy + p.ty - c.py[i]!;
  const ax = c.ax[i]!;
  const ay = c.ay[i]!;
  const off = ax === 0 && ay === 0 ? Math.sqrt(vx * vx + vy * vy) : Math.abs(vx * ax + vy * ay);
  return off - c.clearance[i]!;
};

/** The greatest excess over all joints, or over those that are soft or hard; −Infinity where there are none. */
export const greatestExcess = (c: Columns, p: Pose, which: 'all' | 'soft' | 'hard'): number => {
  const cos = Math.cos(p.turn);
  const sin = Math.sin(p.turn);
  const left = which === 'all' ? -1 : which === 'soft' ? 1 : 0;
  let most = -Infinity;
  for (let i = 0; i < c.n; i += 1) if (c.hard[i] !== left) most = Math.max(most, excess(c, i, p, cos, sin));
  return most;
};

/**
 * The pose of least squares, each joint weighted by 1 / room², about the mean of the holes: the closed form of Umeyama
 * 1991 without scale or mirror. A good first guess: where it lets every pin in, nothing more need be looked for.
 */
export const leastSquaresPose = (c: Columns, floor: number, into: Pose): void => {
  let w = 0;
  let hx = 0;
  let hy = 0;
  let px = 0;
  let py = 0;
  for (let i = 0; i < c.n; i += 1) {
    const k = 1 / (Math.max(c.clearance[i]!, 0) + floor) ** 2;
    w += k;
    hx += k * c.hx[i]!;
    hy += k * c.hy[i]!;
    px += k * c.px[i]!;
    py += k * c.py[i]!;
  }
  hx /= w;
  hy /= w;
  px /= w;
  py /= w;
  let along = 0;
  let across = 0;
  for (let i = 0; i < c.n; i += 1) {
    const k = 1 / (Math.max(c.clearance[i]!, 0) + floor) ** 2;
    const ax = c.hx[i]! - hx;
    const ay = c.hy[i]! - hy;
    const bx = c.px[i]! - px;
    const by = c.py[i]! - py;
    along += k * (ax * bx + ay * by);
    across += k * (ax * by - ay * bx);
  }
  into.turn = along === 0 && across === 0 ? 0 : Math.atan2(across, along);
  into.ox = hx;
  into.oy = hy;
  into.tx = px - hx;
  into.ty = py - hy;
};

/**
 * Whether two pins are farther apart, or nearer together, than their two round holes allow by any shift and turn: a
 * proof that the plate does not go on. The worse of the two least-fitting joints, or null.
 */
export const pairThatForbids = (c: Columns): readonly [number, number] | null => {
  let worst = 0;
  let pair: readonly [number, number] | null = null;
  for (let i = 1; i < c.n; i += 1) {
    if (c.ax[i] !== 0 || c.ay[i] !== 0) continue;
    for (let j = 0; j < i; j += 1) {
      if (c.ax[j] !== 0 || c.ay[j] !== 0) continue;
      const hx = c.hx[i]! - c.hx[j]!;
      const hy = c.hy[i]! - c.hy[j]!;
      const px = c.px[i]! - c.px[j]!;
      const py = c.py[i]! - c.py[j]!;
      const over =
        Math.abs(Math.sqrt(hx * hx + hy * hy) - Math.sqrt(px * px + py * py)) - c.clearance[i]! - c.clearance[j]!;
      if (over > worst) {
        worst = over;
        pair = [i, j];
      }
    }
  }
  return pair;
};
