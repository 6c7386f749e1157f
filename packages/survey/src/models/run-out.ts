import type { Geometry } from './geometry.js';

/**
 * Twice how far A lies from B along a direction, over [xA, yA, xB, yB, xP, yP, xQ, yQ]: the direction from P to Q,
 * turned counter-clockwise by `turn`, radians. A dial that is swept about B reads twice the distance of the centres in
 * one turn (ASME Y14.5: full indicator movement), so that the reading's along is its value, and its across (`turn` a
 * quarter more) is zero.
 */
export const alongModel = (turn: number): Geometry => {
  const [c, s] = [Math.cos(turn), Math.sin(turn)];
  return (v, g) => {
    const [xa = 0, ya = 0, xb = 0, yb = 0, xp = 0, yp = 0, xq = 0, yq = 0] = v;
    const [ex, ey] = [xq - xp, yq - yp];
    const length = Math.hypot(ex, ey);
    if (length === 0) {
      g.fill(0);
      return 0;
    }
    const [ux, uy] = [(c * ex - s * ey) / length, (s * ex + c * ey) / length];
    const [dx, dy] = [xa - xb, ya - yb];
    const along = 2 * (dx * ux + dy * uy);
    // What the direction turns by as Q moves: the part of A − B that lies across it, per unit of the lever P–Q.
    const lever = (2 * (dy * ux - dx * uy)) / (length * length);
    g[0] = 2 * ux;
    g[1] = 2 * uy;
    g[2] = -2 * ux;
    g[3] = -2 * uy;
    g[4] = lever * ey;
    g[5] = -lever * ex;
    g[6] = -lever * ey;
    g[7] = lever * ex;
    return along;
  };
};

/** Twice the difference of one coordinate, over [A, B]: of a run-out whose direction nobody read. */
export const differenceModel: Geometry = (v, g) => {
  const [a = 0, b = 0] = v;
  g[0] = 2;
  g[1] = -2;
  return 2 * (a - b);
};
