import type { Geometry } from './geometry.js';

/**
 * `flush`: a straight edge touches A and C on the same flank; how far B's rim stands off that edge, positive where B
 * lies left of A→C (as `line` has it), over [xA, yA, rA, xB, yB, rB, xC, yC, rC].
 *
 * The edge's unit normal n points to the centres: n·(C − A) = rC − rA; B's rim stands off by n·(B − A) + rA − rB. Of
 * the two flanks the one that leaves the lesser gap is meant; on the right-hand one the sign is turned. A change of n
 * is across n, which gives the slopes.
 */
export const flushModel: Geometry = (v, g) => {
  const [ax = 0, ay = 0, ra = 0, bx = 0, by = 0, rb = 0, cx = 0, cy = 0, rc = 0] = v;
  const ex = cx - ax;
  const ey = cy - ay;
  const wx = bx - ax;
  const wy = by - ay;
  const length = Math.hypot(ex, ey);
  if (length === 0) {
    g.fill(0);
    return Math.hypot(wx, wy) + ra - rb;
  }
  const ux = ex / length;
  const uy = ey / length;
  const sine = (rc - ra) / length;
  if (Math.abs(sine) >= 1) return swallowed(v, g, ux, uy, length, sine < 0 ? -1 : 1);
  const cosine = Math.sqrt(1 - sine * sine);
  const across = (ux * wy - uy * wx) * cosine;
  const along = (ux * wx + uy * wy) * sine + ra - rb;
  const flank = along * across > 0 ? -1 : 1;
  const nx = flank * sine * ux - cosine * uy;
  const ny = flank * sine * uy + cosine * ux;
  const share = (-ny * wx + nx * wy) / (-ny * ex + nx * ey);
  g[0] = -nx * (1 - share);
  g[1] = -ny * (1 - share);
  g[2] = flank * (1 - share);
  g[3] = nx;
  g[4] = ny;
  g[5] = -flank;
  g[6] = -nx * share;
  g[7] = -ny * share;
  g[8] = flank * share;
  return across + flank * along;
};

/**
 * One circle lies within the other: no edge touches both on a flank, and the nearest thing is the tangent where they
 * are closest.
 */
const swallowed = (v: Float64Array, g: Float64Array, ux: number, uy: number, length: number, side: 1 | -1): number => {
  const [ax = 0, ay = 0, ra = 0, bx = 0, by = 0, rb = 0] = v;
  const wx = bx - ax;
  const wy = by - ay;
  const along = ux * wx + uy * wy;
  const kx = (side * (wx - ux * along)) / length;
  const ky = (side * (wy - uy * along)) / length;
  g[0] = -side * ux - kx;
  g[1] = -side * uy - ky;
  g[2] = 1;
  g[3] = side * ux;
  g[4] = side * uy;
  g[5] = -1;
  g[6] = kx;
  g[7] = ky;
  g[8] = 0;
  return side * along + ra - rb;
};
