import { type Point, chiSquareTail } from '@fayplate/core';

/** A height taken at a place, with its standard uncertainty; mm. */
export interface Height extends Point {
  readonly value: number;
  readonly sigma: number;
}

/** The plane z = a + b x + c y through heights, by weighted least squares. */
export interface Plane {
  /** a (mm), b and c (mm per mm). */
  readonly at: readonly [number, number, number];
  /** Of a, b and c, with the uncertainties as stated, not rescaled by the fit. */
  readonly covariance: readonly (readonly number[])[];
  readonly residuals: readonly number[];
  readonly dof: number;
  /** Chance that random error alone fits as badly; null with three places, which any plane fits. */
  readonly p: number | null;
}

/** Inverse of a symmetric 3 × 3 matrix; null where it has none: the places lie on one line. */
const inverse3 = (m: readonly (readonly number[])[]): readonly (readonly number[])[] | null => {
  const e = (i: number, j: number): number => m[i]?.[j] ?? 0;
  const minor = (i: number, j: number): number => {
    const [r, s] = [0, 1, 2].filter((k) => k !== i) as [number, number];
    const [u, v] = [0, 1, 2].filter((k) => k !== j) as [number, number];
    return (e(r, u) * e(s, v) - e(r, v) * e(s, u)) * ((i + j) % 2 === 0 ? 1 : -1);
  };
  const det = [0, 1, 2].reduce((sum, j) => sum + e(0, j) * minor(0, j), 0);
  const size = e(0, 0) * e(1, 1) * e(2, 2);
  return Math.abs(det) <= 1e-9 * Math.abs(size) ? null : [0, 1, 2].map((i) => [0, 1, 2].map((j) => minor(j, i) / det));
};

/**
 * Weighted least squares, (AᵀWA)⁻¹ AᵀWz with W the inverse squares of the uncertainties. Null where fewer than three
 * places are given or all lie on one line.
 */
export const fitPlane = (heights: readonly Height[]): Plane | null => {
  if (heights.length < 3) return null;
  const row = (h: Height): readonly number[] => [1, h.x, h.y];
  const normal = [0, 1, 2].map((i) =>
    [0, 1, 2].map((j) => heights.reduce((s, h) => s + ((row(h)[i] ?? 0) * (row(h)[j] ?? 0)) / h.sigma ** 2, 0)),
  );
  const covariance = inverse3(normal);
  if (covariance === null) return null;
  const right = [0, 1, 2].map((i) => heights.reduce((s, h) => s + ((row(h)[i] ?? 0) * h.value) / h.sigma ** 2, 0));
  const [a = 0, b = 0, c = 0] = covariance.map((r) => r.reduce((s, v, j) => s + v * (right[j] ?? 0), 0));
  const residuals = heights.map((h) => h.value - (a + b * h.x + c * h.y));
  const chi2 = residuals.reduce((s, r, i) => s + (r / (heights[i]?.sigma ?? 1)) ** 2, 0);
  const dof = heights.length - 3;
  return { at: [a, b, c], covariance, residuals, dof, p: dof === 0 ? null : chiSquareTail(chi2, dof) };
};

/** Height of a plane at a place and its standard uncertainty, mm. */
export const heightAt = ({ at, covariance }: Plane, p: Point): { readonly value: number; readonly sigma: number } => {
  const g = [1, p.x, p.y];
  const variance = g.reduce((s, u, i) => s + g.reduce((t, v, j) => t + u * v * (covariance[i]?.[j] ?? 0), 0), 0);
  return { value: at[0] + at[1] * p.x + at[2] * p.y, sigma: Math.sqrt(Math.max(0, variance)) };
};

/** How steep a plane is. */
export interface Lean {
  /** Radians. */
  readonly tilt: number;
  /** Standard uncertainty of the tilt, radians. */
  readonly sigma: number;
  /** Way in which the height grows most, radians counter-clockwise from +x. */
  readonly towards: number;
  /** Whether it is more than random error: level planes lean so by chance less than 5 times in 100. */
  readonly sure: boolean;
}

/** χ² of two degrees of freedom that is passed 5 times in 100. Source: NIST/SEMATECH e-Handbook, 1.3.6.7.4. */
const FIVE_IN_HUNDRED = 5.991;

export const leanOf = ({ at: [, b, c], covariance }: Plane): Lean => {
  const slope = Math.hypot(b, c);
  const [bb, bc, cc] = [covariance[1]?.[1] ?? 0, covariance[1]?.[2] ?? 0, covariance[2]?.[2] ?? 0];
  const [u, v] = slope === 0 ? [1, 0] : [b / slope, c / slope];
  const det = bb * cc - bc * bc;
  const chi2 = det <= 0 ? 0 : (cc * b * b - 2 * bc * b * c + bb * c * c) / det;
  return {
    tilt: Math.atan(slope),
    sigma: Math.sqrt(Math.max(0, u * u * bb + 2 * u * v * bc + v * v * cc)),
    towards: Math.atan2(c, b),
    sure: chi2 > FIVE_IN_HUNDRED,
  };
};
