import type { DistanceForm } from '@fayplate/job';

/**
 * What one reading measures, as a function of a few numbers (coordinates and radii, mm, in the order that its maker
 * states): returns the modelled value and writes its slope by each of them into `slopes`.
 */
export type Geometry = (values: Float64Array, slopes: Float64Array) => number;

/**
 * k·|AB| + a·rA + b·rB over [xA, yA, rA, xB, yB, rB]: readings of a distance differ in k, a and b alone.
 * Where the centres coincide the distance has no direction and its slopes are zero; `blunt`, mm, rounds that point
 * off, so that a reading which would have the centres closer than together (a wall too thick between concentric
 * circles) comes to rest there.
 */
export const distanceModel =
  ({ k, a, b }: DistanceForm, blunt = 0): Geometry =>
  (v, g) => {
    const [xa = 0, ya = 0, ra = 0, xb = 0, yb = 0, rb = 0] = v;
    const dx = xb - xa;
    const dy = yb - ya;
    const d = Math.hypot(dx, dy, blunt);
    const ux = d === 0 ? 0 : (k * dx) / d;
    const uy = d === 0 ? 0 : (k * dy) / d;
    g[0] = -ux;
    g[1] = -uy;
    g[2] = a;
    g[3] = ux;
    g[4] = uy;
    g[5] = b;
    return k * d + a * ra + b * rb;
  };

/** 2r over [r]. */
export const diameterModel: Geometry = (v, g) => {
  const [r = 0] = v;
  g[0] = 2;
  return 2 * r;
};

const distanceFromLine =
  (unsigned: boolean): Geometry =>
  (v, g) => {
    const [ax = 0, ay = 0, bx = 0, by = 0, cx = 0, cy = 0] = v;
    const ex = cx - bx;
    const ey = cy - by;
    const length = Math.hypot(ex, ey);
    if (length === 0) {
      g.fill(0);
      return Math.hypot(ax - bx, ay - by);
    }
    const nx = -ey / length;
    const ny = ex / length;
    const d = nx * (ax - bx) + ny * (ay - by);
    const along = (ex * (ax - bx) + ey * (ay - by)) / (length * length);
    const side = unsigned && d < 0 ? -1 : 1;
    g[0] = side * nx;
    g[1] = side * ny;
    g[2] = -side * nx * (1 - along);
    g[3] = -side * ny * (1 - along);
    g[4] = -side * nx * along;
    g[5] = -side * ny * along;
    return side * d;
  };

/** `offset`: distance of A from the line B–C, never negative, over [xA, yA, xB, yB, xC, yC]. */
export const offsetModel = distanceFromLine(true);

/** `line`: the same with its sign, positive where A lies left of B→C, so that it has no kink at zero. */
export const signedOffsetModel = distanceFromLine(false);

/**
 * Angle between the directions P→Q and R→S, 0..π, over [xP, yP, xQ, yQ, xR, yR, xS, yS].
 * It has a kink at 0 and π: the slopes are those of the side on which the figure lies.
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

/** One coordinate, over [x] or [y]: where a face has bench readings its unknowns are kept in the bench frame itself. */
export const coordinateModel: Geometry = (v, g) => {
  const [x = 0] = v;
  g[0] = 1;
  return x;
};

/**
 * `touch`: how far the touched point lies outside the rim, over [x, y, r] of the circle; `px`, `py` in the bench frame.
 */
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
