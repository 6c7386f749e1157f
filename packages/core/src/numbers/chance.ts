import jstat from 'jstat';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';

/** P(χ²(dof) > x). */
export const chiSquareTail = (x: number, dof: number): number => 1 - jstat.chisquare.cdf(x, dof);
/** The x that χ²(dof) stays below with probability p. */
export const chiSquareQuantile = (p: number, dof: number): number => jstat.chisquare.inv(p, dof);
/** P(N(0, 1) < z). */
export const normalBelow = (z: number): number => jstat.normal.cdf(z, 0, 1);
/** The z that N(0, 1) stays below with probability p. */
export const normalQuantile = (p: number): number => jstat.normal.inv(p, 0, 1);

/** A symmetric matrix as rows. */
type Rows = readonly (readonly number[])[];

/**
 * The larger eigenvalue of the symmetric matrix [[xx, xy], [xy, yy]]: of a covariance, the variance along the direction
 * in which a place is known worst. Not below 0 for a covariance, rounding set aside.
 */
export const largerEigenvalue = (xx: number, xy: number, yy: number): number =>
  Math.max(0, (xx + yy) / 2 + Math.hypot((xx - yy) / 2, xy));

/**
 * The rows and columns x, y of the points numbered `indices`, in that order, of a covariance laid out x₀, y₀, x₁, y₁ …;
 * 0 where it has none.
 */
export const covarianceOfPoints = (covariance: Rows, indices: readonly number[]): readonly number[][] => {
  const at = indices.flatMap((i) => [2 * i, 2 * i + 1]);
  return at.map((r) => at.map((s) => covariance[r]?.[s] ?? 0));
};

/** A stream of random numbers from an explicit seed: the only source of chance in the project. */
export interface Random {
  /** Uniform in [0, 1), 53 bits. */
  readonly uniform: () => number;
  /** Standard normal (Marsaglia's polar method). */
  readonly normal: () => number;
  /** Whole number from 0 to n − 1. */
  readonly below: (n: number) => number;
}

/** The stream of a seed (xoroshiro128+): the same seed gives the same numbers on every machine. */
export const randomFrom = (seed: number): Random => {
  const generator = xoroshiro128plus(seed | 0);
  const uniform = (): number => {
    const high = generator.next() >>> 6;
    const low = generator.next() >>> 5;
    return (high * 134_217_728 + low) / 9_007_199_254_740_992;
  };
  let spare: number | null = null;
  const normal = (): number => {
    if (spare !== null) {
      const kept = spare;
      spare = null;
      return kept;
    }
    for (;;) {
      const u = 2 * uniform() - 1;
      const v = 2 * uniform() - 1;
      const s = u * u + v * v;
      if (s > 0 && s < 1) {
        const f = Math.sqrt((-2 * Math.log(s)) / s);
        spare = v * f;
        return u * f;
      }
    }
  };
  return { uniform, normal, below: (n) => Math.floor(uniform() * n) };
};
