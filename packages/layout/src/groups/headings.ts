import { type Point, heading, subtract, wrapAngle } from '@fayplate/core';
import { Matrix } from 'ml-matrix';
import { choleskyOf } from '../fit/cholesky.js';
import type { Measured } from '../measured/points.js';
import { type About, centreOf } from './group.js';

/** Directions and distances of some features from a centre, with their joint covariances; a centre of its own is taken as exact. */
export interface Polar {
  readonly headings: readonly number[];
  readonly distances: readonly number[];
  /** Of the headings less a common turn; a rigid turn of the drawing takes no part. */
  readonly headingCovariance: Matrix;
  readonly distanceCovariance: Matrix;
}

/** Slopes of a heading and a distance with respect to the far end; to the near end they are the opposite. */
const slopes = (from: Point, to: Point): { readonly turn: readonly [number, number]; readonly out: readonly [number, number] } => {
  const d = subtract(to, from);
  const r = Math.max(Math.hypot(d.x, d.y), 1e-9);
  return { turn: [-d.y / (r * r), d.x / (r * r)], out: [d.x / r, d.y / r] };
};

export const polarOf = (measured: Measured, members: readonly number[], about: About): Polar => {
  const centre = centreOf(about, measured);
  const at = members.map((m) => measured.points[m] ?? centre);
  const indices = 'feature' in about ? [...members, about.feature] : members;
  const rows = indices.flatMap((i) => [2 * i, 2 * i + 1]);
  const covariance = measured.covariance.selection(rows, rows);
  const turn = Matrix.zeros(members.length, rows.length);
  const out = Matrix.zeros(members.length, rows.length);
  for (const [k, p] of at.entries()) {
    const s = slopes(centre, p);
    for (const c of [0, 1] as const) {
      turn.set(k, 2 * k + c, s.turn[c]);
      out.set(k, 2 * k + c, s.out[c]);
      if ('feature' in about) {
        turn.set(k, 2 * members.length + c, -s.turn[c]);
        out.set(k, 2 * members.length + c, -s.out[c]);
      }
    }
  }
  const carry = (a: Matrix): Matrix => a.mmul(covariance).mmul(a.transpose());
  return {
    headings: at.map((p) => heading(subtract(p, centre))),
    distances: at.map((p) => Math.hypot(p.x - centre.x, p.y - centre.y)),
    headingCovariance: carry(turn),
    distanceCovariance: carry(out),
  };
};

/** Misfit of values to one common unknown, on their joint covariance: least χ² and the common value. */
export const commonValue = (values: readonly number[], information: Matrix): { readonly value: number; readonly chi2: number } => {
  const sums = information.to2DArray().map((row) => row.reduce((a, b) => a + b, 0));
  const whole = sums.reduce((a, b) => a + b, 0);
  const value = values.reduce((s, v, i) => s + v * (sums[i] ?? 0), 0) / whole;
  const e = values.map((v) => v - value);
  const chi2 = e.reduce((s, a, i) => s + a * e.reduce((q, b, k) => q + b * information.get(i, k), 0), 0);
  return { value, chi2 };
};

/** Inverse of a covariance that may be close to singular: a thousandth of a millionth of its mean is added to the diagonal. */
export const informationOf = (covariance: Matrix): Matrix => {
  const c = covariance.clone();
  const floor = 1e-9 * (c.trace() / c.rows) + 1e-24;
  for (let i = 0; i < c.rows; i++) c.set(i, i, c.get(i, i) + floor);
  const factor = choleskyOf(c);
  if (factor === null) throw new Error('informationOf: a covariance has a negative direction');
  return factor.solve(Matrix.eye(c.rows));
};

/** How many equal divisions headings fit: the place of each, counted clockwise, and the heading of division 0. */
export const placesFor = (
  polar: Polar,
  information: Matrix,
  divisions: number,
): { readonly places: readonly number[]; readonly heading: number; readonly chi2: number } => {
  const part = (2 * Math.PI) / divisions;
  let c = 0;
  let s = 0;
  for (const [k, a] of polar.headings.entries()) {
    const w = 1 / Math.max(polar.headingCovariance.get(k, k), 1e-24);
    c += w * Math.cos(divisions * a);
    s += w * Math.sin(divisions * a);
  }
  const guess = Math.atan2(s, c) / divisions;
  const first = polar.headings[0] ?? 0;
  const zero = guess + part * Math.round((first - guess) / part);
  const raw = polar.headings.map((a) => Math.round(-wrapAngle(a - zero) / part));
  const rests = polar.headings.map((a, k) => wrapAngle(a - zero + part * (raw[k] ?? 0)));
  const { value, chi2 } = commonValue(rests, information);
  return { places: raw.map((p) => ((p % divisions) + divisions) % divisions), heading: zero + value, chi2 };
};
