import jstat from 'jstat';

/** P(χ²(dof) > x). */
export const chiSquareTail = (x: number, dof: number): number => 1 - jstat.chisquare.cdf(x, dof);
export const chiSquareQuantile = (p: number, dof: number): number => jstat.chisquare.inv(p, dof);
/** P(N(0, 1) < z). */
export const normalBelow = (z: number): number => jstat.normal.cdf(z, 0, 1);
export const normalQuantile = (p: number): number => jstat.normal.inv(p, 0, 1);
