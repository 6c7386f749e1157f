import { largerEigenvalue } from '@fayplate/core';
import type { Ellipse, Matrix2 } from '../types.js';

/** √χ²(0.95; 2): semi-axes of the ellipse that holds 95 in 100, in standard deviations. −2 ln 0.05 is that quantile exactly. */
export const FACTOR95 = Math.sqrt(-2 * Math.log(0.05));

/** The 95 % ellipse of a centre. */
export const ellipse95 = ([[xx, xy], [, yy]]: Matrix2): Ellipse => {
  const angle = xy === 0 && xx === yy ? 0 : Math.atan2(2 * xy, xx - yy) / 2;
  const most = largerEigenvalue(xx, xy, yy);
  // The product of the two is the determinant: kinder to the lesser one than a difference.
  const least = most === 0 ? 0 : Math.max((xx * yy - xy * xy) / most, 0);
  return {
    major: FACTOR95 * Math.sqrt(most),
    minor: FACTOR95 * Math.sqrt(least),
    angle: angle < 0 ? angle + Math.PI : angle,
  };
};
