import type { Geometry } from './geometry.js';

/**
 * Angle between the directions P→Q and R→S, 0..π, over [xP, yP, xQ, yQ, xR, yR, xS, yS].
 * It folds at 0 and π: the slopes are those of the side on which the figure lies.
 */
export const angleModel: Geometry = (v, g) => {
  const [px = 0, py = 0, qx = 0, qy = 0, rx = 0, ry = 0, sx = 0, sy = 0] = v;
  const ux = qx - px;
  const uy = qy - py;
  const wx = sx - rx;
  const wy = sy - ry;
  const c = ux * wy - uy * wx;
  const d = ux * wx + uy * wy;
  const side = c < 0 ? -1 : 1;
  const uu = ux * ux + uy * uy;
  const ww = wx * wx + wy * wy;
  const fu = uu === 0 ? 0 : side / uu;
  const fw = ww === 0 ? 0 : side / ww;
  // The heading of a vector (x, y) changes by (−y, x) / (x² + y²).
  g[0] = -uy * fu;
  g[1] = ux * fu;
  g[2] = uy * fu;
  g[3] = -ux * fu;
  g[4] = wy * fw;
  g[5] = -wx * fw;
  g[6] = -wy * fw;
  g[7] = wx * fw;
  return Math.atan2(side * c, d);
};
