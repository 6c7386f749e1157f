import jstat from 'jstat';

/** P(χ²(dof) > x). */
export const chiSquareTail = (x: number, dof: number): number => 1 - jstat.chisquare.cdf(x, dof);
/** The x that χ²(dof) stays below with probability p. */
export const chiSquareQuantile = (p: number, dof: number): number => jstat.chisquare.inv(p, dof);
/** P(N(0, 1) < z). */
export const normalBelow = (z: number): number => jstat.normal.cdf(z, 0, 1);
/** The z that N(0, 1) stays below with probability p. */
export const normalQuantile = (p: number): number => jstat.normal.inv(p, 0, 1);
