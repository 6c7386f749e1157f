import type { Geometry } from './geometry.js';

const distanceFromLine =
  (fold: boolean): Geometry =>
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
    const side = fold && d < 0 ? -1 : 1;
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

/** `line`: the same with its sign, positive where A lies left of B→C, so that it has no fold at nought. */
export const signedOffsetModel = distanceFromLine(false);
