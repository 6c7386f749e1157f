import { type Point, heading, subtract, wrapAngle } from '@fayplate/core';
import { firmFactor, inverseOf } from '../fit/dense.js';
import { type Measured, covarianceAt } from '../measured.js';
import { type About, centreOf } from './group.js';

/**
 * Directions and distances of some features from a centre, with their joint covariances; a centre of its own is taken
 * as exact.
 */
export interface Polar {
  readonly headings: readonly number[];
  readonly distances: readonly number[];
  /** k × k row by row; a turn of the whole is in it, so only differences of headings mean anything. */
  readonly headingCovariance: Float64Array;
  readonly distanceCovariance: Float64Array;
}

/** Variance of the difference of two values of a joint covariance (size × size). */
export const differenceVariance = (c: Float64Array, size: number, i: number, j: number): number =>
  Math.max(0, (c[i * size + i] as number) + (c[j * size + j] as number) - 2 * (c[i * size + j] as number));

/** Slopes of a heading and a distance with respect to the far end; to the near end they are the opposite. */
const slopes = (
  from: Point,
  to: Point,
): { readonly turn: readonly [number, number]; readonly out: readonly [number, number] } => {
  const d = subtract(to, from);
  const r = Math.max(Math.hypot(d.x, d.y), 1e-9);
  return { turn: [-d.y / (r * r), d.x / (r * r)], out: [d.x / r, d.y / r] };
};

export const polarOf = (measured: Measured, members: readonly number[], about: About): Polar => {
  const centre = centreOf(about, measured);
  const at = members.map((m) => measured.points[m] ?? centre);
  const k = members.length;
  const c = 'feature' in about ? about.feature : null;
  const all = at.map((p) => slopes(centre, p));
  /** Covariance of two linear forms, each along `a` at member i and against it at the centre. */
  const between = (of: 'turn' | 'out', i: number, j: number): number => {
    let s = 0;
    for (const r of [0, 1] as const) {
      for (const q of [0, 1] as const) {
        const w = (all[i]?.[of][r] ?? 0) * (all[j]?.[of][q] ?? 0);
        const [mi, mj] = [2 * (members[i] ?? 0) + r, 2 * (members[j] ?? 0) + q];
        s += w * covarianceAt(measured, mi, mj);
        if (c !== null)
          s +=
            w *
            (covarianceAt(measured, 2 * c + r, 2 * c + q) -
              covarianceAt(measured, 2 * c + r, mj) -
              covarianceAt(measured, mi, 2 * c + q));
      }
    }
    return s;
  };
  const joint = (of: 'turn' | 'out'): Float64Array => {
    const out = new Float64Array(k * k);
    for (let i = 0; i < k; i++) {
      for (let j = 0; j <= i; j++) {
        const v = between(of, i, j);
        out[i * k + j] = v;
        out[j * k + i] = v;
      }
    }
    return out;
  };
  return {
    headings: at.map((p) => heading(subtract(p, centre))),
    distances: at.map((p) => Math.hypot(p.x - centre.x, p.y - centre.y)),
    headingCovariance: joint('turn'),
    distanceCovariance: joint('out'),
  };
};

/** Misfit of values to one common unknown, on the inverse of their joint covariance: least χ² and the common value. */
const commonValue = (
  values: readonly number[],
  information: Float64Array,
): { readonly value: number; readonly chi2: number } => {
  const k = values.length;
  let whole = 0;
  let sum = 0;
  for (let i = 0; i < k; i++) {
    for (let j = 0; j < k; j++) {
      whole += information[i * k + j] as number;
      sum += (information[i * k + j] as number) * (values[j] ?? 0);
    }
  }
  const value = sum / whole;
  let chi2 = 0;
  for (let i = 0; i < k; i++)
    for (let j = 0; j < k; j++)
      chi2 += (information[i * k + j] as number) * ((values[i] ?? 0) - value) * ((values[j] ?? 0) - value);
  return { value, chi2 };
};

/** Inverse of a covariance, row by row. */
export const informationOf = (covariance: Float64Array): Float64Array =>
  inverseOf(firmFactor(covariance, Math.round(Math.sqrt(covariance.length))));

/** How many equal divisions headings fit: the place of each, counted clockwise, and the heading of division 0. */
export const placesFor = (
  polar: Polar,
  information: Float64Array,
  divisions: number,
): { readonly places: readonly number[]; readonly heading: number; readonly chi2: number } => {
  const part = (2 * Math.PI) / divisions;
  let c = 0;
  let s = 0;
  for (const [k, a] of polar.headings.entries()) {
    const w = 1 / Math.max(polar.headingCovariance[k * (polar.headings.length + 1)] as number, 1e-24);
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
