import type { DistanceForm } from '@fayplate/job';
import type { Geometry } from './geometry.js';

/**
 * k·|AB| + a·rA + b·rB over [xA, yA, rA, xB, yB, rB]: readings of a distance differ in k, a and b alone.
 * Where the centres coincide the distance has no direction and its slopes are nought; `blunt`, mm, rounds that point off, so that a
 * reading which would have the centres closer than together (a wall too thick between concentric circles) comes to rest there.
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
