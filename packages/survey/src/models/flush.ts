import type { Geometry } from './geometry.js';

/**
 * `flush`: a straight edge touches A and C on the same flank; the gap left at B, positive where B falls short of the edge's reach
 * on its own side, over [xA, yA, rA, xB, yB, rB, xC, yC, rC].
 *
 * The edge's unit normal n points to the centres: n·(C − A) = rC − rA; the gap is n·(B − A) + rA − rB. Of the two flanks the one
 * that leaves the lesser gap is meant. A change of n is across n, which gives the slopes.
 */
export const flushModel: Geometry = (v, g) => {
  const [ax = 0, ay = 0, ra = 0, bx = 0, by = 0, rb = 0, cx = 0, cy = 0, rc = 0] = v;
  const ex = cx - ax;
  const ey = cy - ay;
  const wx = bx - ax;
  const wy = by - ay;
  const length = Math.hypot(ex, ey);
  const sine = length === 0 ? 0 : (rc - ra) / length;
  if (length === 0 || Math.abs(sine) >= 1) {
    g.fill(0);
    return Math.hypot(wx, wy) + ra - rb;
  }
  const ux = ex / length;
  const uy = ey / length;
  const cosine = Math.sqrt(1 - sine * sine);
  const across = (ux * wy - uy * wx) * cosine;
  const along = (ux * wx + uy * wy) * sine + ra - rb;
  // Equal radii leave both flanks the same gap but for its sign: then the left one, steadily.
  const flank = Math.abs(along - across) < Math.abs(along + across) - 1e-9 * Math.abs(across) ? -1 : 1;
  const nx = sine * ux - flank * cosine * uy;
  const ny = sine * uy + flank * cosine * ux;
  const share = (-ny * wx + nx * wy) / (-ny * ex + nx * ey);
  g[0] = -nx * (1 - share);
  g[1] = -ny * (1 - share);
  g[2] = 1 - share;
  g[3] = nx;
  g[4] = ny;
  g[5] = -1;
  g[6] = -nx * share;
  g[7] = -ny * share;
  g[8] = share;
  return along + flank * across;
};
