import type { Point } from '@fayplate/core';
import { factorOf, firmFactor, solveWith } from '../fit/dense.js';

/** Equal divisions of one circle laid through measured centres by least squares; mm. */
export interface EqualCircle {
  readonly diameter: number;
  /** Standard uncertainty of the diameter, the tolerance of the holes' places within it. */
  readonly sigma: number;
  readonly chi2: number;
  readonly dof: number;
  /** log ∫ N(x; g(φ), C) dφ over centre, radius and direction, flat in each (Laplace). */
  readonly log: number;
}

export interface Measured {
  /** Hole centres, then the register's where it is known. */
  readonly points: readonly Point[];
  readonly count: number;
  /** Their joint covariance, mm², rows x₁ y₁ x₂ y₂ …. */
  readonly covariance: readonly (readonly number[])[];
}

/**
 * A register that the frame holds exactly still has a standard uncertainty of this, mm, so that the covariance can be
 * inverted.
 */
const EXACT = 0.001;

/** Clockwise about a point, from wherever the first lies. */
const clockwise = (points: readonly Point[], about: Point): readonly number[] =>
  points
    .map((p, i) => [i, Math.atan2(p.y - about.y, p.x - about.x)] as const)
    .toSorted((a, b) => b[1] - a[1])
    .map(([i]) => i);

const meanOf = (points: readonly Point[]): Point => ({
  x: points.reduce((s, p) => s + p.x, 0) / points.length,
  y: points.reduce((s, p) => s + p.y, 0) / points.length,
});

/**
 * The circle and its equal divisions through the holes (Gauss–Newton; unknowns centre x, y, radius, direction of the
 * first hole). `place` is the standard uncertainty of a hole's place about its true one, added to what the readings
 * leave; mm. Null where the holes make no circle.
 */
export const equalCircle = (measured: Measured, place: number): EqualCircle | null => {
  const { points, count } = measured;
  const holes = points.slice(0, count);
  const register = points[count];
  const middle = register ?? meanOf(holes);
  const order = clockwise(holes, middle);
  const step = (2 * Math.PI) / count;
  const n = points.length;
  const covariance = new Float64Array(4 * n * n);
  for (let i = 0; i < 2 * n; i++) {
    for (let j = 0; j < 2 * n; j++) covariance[i * 2 * n + j] = measured.covariance[i]?.[j] ?? 0;
    covariance[i * (2 * n + 1)] =
      (covariance[i * (2 * n + 1)] ?? 0) + (i < 2 * count ? place * place : 0) + EXACT * EXACT;
  }
  const factor = firmFactor(covariance, 2 * n);
  let [cx, cy] = [middle.x, middle.y];
  let radius = holes.reduce((s, p) => s + Math.hypot(p.x - cx, p.y - cy), 0) / count;
  if (!(radius > 0)) return null;
  const rank = new Map(order.map((hole, k) => [hole, k]));
  let [sin, cos] = [0, 0];
  for (const [i, p] of holes.entries()) {
    const a = Math.atan2(p.y - cy, p.x - cx) + (rank.get(i) ?? 0) * step;
    sin += Math.sin(a);
    cos += Math.cos(a);
  }
  let direction = Math.atan2(sin, cos);
  let normal = new Float64Array(16);
  let residual = new Float64Array(2 * n);
  for (let turn = 0; turn < 8; turn++) {
    const slopes = [0, 1, 2, 3].map(() => new Float64Array(2 * n));
    residual = new Float64Array(2 * n);
    for (const [i, p] of points.entries()) {
      const a = direction - (rank.get(i) ?? 0) * step;
      const [c, s] = i < count ? [Math.cos(a), Math.sin(a)] : [0, 0];
      residual[2 * i] = p.x - (cx + radius * c);
      residual[2 * i + 1] = p.y - (cy + radius * s);
      (slopes[0] as Float64Array)[2 * i] = 1;
      (slopes[1] as Float64Array)[2 * i + 1] = 1;
      (slopes[2] as Float64Array)[2 * i] = c;
      (slopes[2] as Float64Array)[2 * i + 1] = s;
      (slopes[3] as Float64Array)[2 * i] = -radius * s;
      (slopes[3] as Float64Array)[2 * i + 1] = radius * c;
    }
    const weighed = slopes.map((j) => solveWith(factor, j));
    const dot = (a: Float64Array, b: Float64Array): number => a.reduce((t, v, k) => t + v * (b[k] as number), 0);
    normal = new Float64Array(16);
    for (let i = 0; i < 4; i++)
      for (let j = 0; j < 4; j++) normal[i * 4 + j] = dot(slopes[i] as Float64Array, weighed[j] as Float64Array);
    const root = factorOf(normal, 4);
    if (root === null) return null;
    const by = solveWith(root, Float64Array.from(weighed.map((w) => dot(w, residual))));
    cx += by[0] as number;
    cy += by[1] as number;
    radius += by[2] as number;
    direction += by[3] as number;
    if (!(radius > 0)) return null;
    if (by.every((v) => Math.abs(v) < 1e-10)) break;
  }
  const root = factorOf(normal, 4);
  if (root === null) return null;
  const chi2 = solveWith(factor, residual).reduce((t, v, k) => t + v * (residual[k] as number), 0);
  const unit = solveWith(root, Float64Array.of(0, 0, 1, 0));
  return {
    diameter: 2 * radius,
    sigma: 2 * Math.sqrt(unit[2] as number),
    chi2,
    dof: 2 * n - 4,
    log: -chi2 / 2 - factor.logRoot - root.logRoot + (2 - n) * Math.log(2 * Math.PI),
  };
};
