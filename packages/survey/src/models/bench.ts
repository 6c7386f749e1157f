import type { Geometry } from './geometry.js';

/** One coordinate, over [x] or [y]: where a face has bench readings its unknowns are kept in the bench frame itself. */
export const coordinateModel: Geometry = (v, g) => {
  const [x = 0] = v;
  g[0] = 1;
  return x;
};

/** `touch`: how far the touched point lies outside the rim, over [x, y, r] of the circle; `px`, `py` in the bench frame. */
export const touchModel =
  (px: number, py: number): Geometry =>
  (v, g) => {
    const [x = 0, y = 0, r = 0] = v;
    const d = Math.hypot(x - px, y - py);
    g[0] = d === 0 ? 0 : (x - px) / d;
    g[1] = d === 0 ? 0 : (y - py) / d;
    g[2] = -1;
    return d - r;
  };
