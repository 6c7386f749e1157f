import type { Random } from '@fayplate/core';
import type { GoesOnSpec } from '../types.js';
import { type Columns, leastClearance, mostClearance } from './pose.js';

/**
 * Lower triangle L with L Lᵀ = C for a covariance that may be singular (exact coordinates have rows of zeros), by
 * Cholesky with zero pivots left out. Throws RangeError where C is no covariance.
 */
export const covarianceRoot = (c: readonly (readonly number[])[]): Float64Array => {
  const n = c.length;
  const l = new Float64Array(n * n);
  const scale = Math.max(...c.map((r, i) => Math.abs(r[i] ?? NaN)), 0);
  if (c.some((r) => r.length !== n || r.some((v) => !Number.isFinite(v))))
    throw new RangeError('a covariance must be square and finite');
  for (let j = 0; j < n; j += 1) {
    let d = c[j]![j]!;
    for (let k = 0; k < j; k += 1) d -= l[n * j + k]! ** 2;
    if (d < -1e-6 * scale) throw new RangeError('not a covariance: a variance comes out below zero');
    const root = d > 1e-12 * scale ? Math.sqrt(d) : 0;
    l[n * j + j] = root;
    for (let i = j + 1; i < n; i += 1) {
      let e = c[i]![j]!;
      for (let k = 0; k < j; k += 1) e -= l[n * i + k]! * l[n * j + k]!;
      l[n * i + j] = root > 0 ? e / root : 0;
    }
  }
  return l;
};

/**
 * Draws one plate and part into `into`: the pins by the joint covariance with each hole's own making error added (± is
 * two standard deviations in x and in y), the clearance of each hole evenly between its limits. Every draw takes the
 * same count of random numbers, so that two designs under one seed meet the same luck.
 */
export const drawer = (spec: GoesOnSpec, into: Columns): ((random: Random) => void) => {
  const { joints, covariance } = spec;
  const n = joints.length;
  const total = covariance.map((row, i) =>
    row.map((v, j) => v + (i === j ? ((joints[Math.floor(i / 2)]?.made ?? 0) / 2) ** 2 : 0)),
  );
  if (total.length !== 2 * n)
    throw new RangeError(`${n} joints need a covariance of ${2 * n} rows, not ${total.length}`);
  const root = covarianceRoot(total);
  const nominal = Float64Array.from({ length: 2 * n }, (_, i) => {
    const p = joints[Math.floor(i / 2)]?.part ?? { x: 0, y: 0 };
    return i % 2 === 0 ? p.x : p.y;
  });
  const least = Float64Array.from(joints, leastClearance);
  const range = Float64Array.from(joints, (j) => mostClearance(j) - leastClearance(j));
  const z = new Float64Array(2 * n);
  return (random) => {
    for (let i = 0; i < 2 * n; i += 1) z[i] = random.normal();
    for (let i = 0; i < 2 * n; i += 1) {
      let v = nominal[i]!;
      const row = 2 * n * i;
      for (let k = 0; k <= i; k += 1) v += root[row + k]! * z[k]!;
      if (i % 2 === 0) into.px[i >> 1] = v;
      else into.py[i >> 1] = v;
    }
    for (let i = 0; i < n; i += 1) into.clearance[i] = least[i]! + range[i]! * random.uniform();
  };
};
