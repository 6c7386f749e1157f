import { assemble, barrier } from './barrier.js';
import type { Columns } from './joints.js';
import { type Work, level } from './linear.js';
import { lowerBound, step } from './newton.js';

/** How far to go: `sign` stops as soon as it is certain whether the greatest excess can be brought to 0 or below. */
export type Goal = 'sign' | 'value';

/** How near value and bound must come, mm. */
export const gapWanted = 1e-7;
/** Where the barrier's own gap, 2 n / τ, is less than this, no more can be gained in double precision, mm. */
export const gapReached = 1e-9;
/** Weight of the linear objective grows by this from one centre to the next. */
const growth = 12;
/** A step this short (squared) has come near enough to the centre. */
const centred = 0.25;
const mostSteps = 200;

/**
 * Follows the barrier's centres to the least level s of the linearised problem, from the shift and turn in z and a level above
 * every excess. Leaves the pose in z and returns the lower bound.
 */
export const follow = (c: Columns, w: Work, goal: Goal): number => {
  const { z, g } = w;
  const start = level(c, w, z[0]!, z[1]!, z[2]!);
  let spread = 0;
  for (let i = 0; i < c.n; i += 1) {
    if (c.hard[i] === 1) continue;
    spread = Math.max(spread, Math.abs(c.room[i]!) + Math.sqrt(w.bx[i]! ** 2 + w.by[i]! ** 2));
  }
  z[3] = start + Math.max(0.2 * spread, 1e-6);
  let tau = 0;
  let best = -Infinity;
  let reached = start;
  for (let n = 0; n < mostSteps; n += 1) {
    assemble(c, w, tau);
    if (tau === 0) {
      tau = -g[3]!;
      g[3] = 0;
    }
    const decrement = step(w);
    if (decrement < 1) best = Math.max(best, lowerBound(c, w));
    let size = 1;
    if (decrement > 0.06) {
      const [x = 0, y = 0, phi = 0, s = 0] = z;
      const [dx = 0, dy = 0, dphi = 0, ds = 0] = g;
      const here = barrier(c, w, tau, x, y, phi, s);
      while (
        size > 1e-12 &&
        !(
          barrier(c, w, tau, x + size * dx, y + size * dy, phi + size * dphi, s + size * ds) <=
          here - 0.1 * size * decrement
        )
      )
        size *= 0.5;
    }
    for (let k = 0; k < 4; k += 1) z[k]! += size * g[k]!;
    reached = Math.min(reached, level(c, w, z[0]!, z[1]!, z[2]!));
    if (reached - best <= gapWanted || 2 * c.n <= gapReached * tau || (goal === 'sign' && (reached <= 0 || best > 0)))
      break;
    if (decrement < centred) tau *= growth;
  }
  return best;
};
