import type { Joint } from '../../src/index.js';

/** The least of a function with one valley in [a, b], by golden section. */
const valley = (f: (x: number) => number, a: number, b: number, within: number): number => {
  const k = (Math.sqrt(5) - 1) / 2;
  let [lo, hi] = [a, b];
  let x = hi - k * (hi - lo);
  let y = lo + k * (hi - lo);
  let fx = f(x);
  let fy = f(y);
  while (hi - lo > within) {
    if (fx < fy) {
      hi = y;
      y = x;
      fy = fx;
      x = hi - k * (hi - lo);
      fx = f(x);
    } else {
      lo = x;
      x = y;
      fx = fy;
      y = lo + k * (hi - lo);
      fy = f(y);
    }
  }
  return Math.min(fx, fy);
};

/**
 * What a locator's excess costs, many times what it could gain the fasteners: an exact penalty, so the least keeps the
 * locators in.
 */
const penalty = 200;

/**
 * The smallest greatest excess of the fasteners over all turns and shifts, the locators kept; shares no line with the
 * solver: every turn of a fine scan is tried (the turn exact), for each the best shift by golden section within golden
 * section (in the shift the problem has one valley), and the best turn is refined the same way.
 */
export const bruteExcess = (joints: readonly Joint[], reach: number, turns: number): number => {
  const at = (turn: number, tx: number, ty: number): number => {
    let fasteners = -Infinity;
    let locators = 0;
    for (const j of joints) {
      const vx = j.plate.x * Math.cos(turn) - j.plate.y * Math.sin(turn) + tx - j.part.x;
      const vy = j.plate.x * Math.sin(turn) + j.plate.y * Math.cos(turn) + ty - j.part.y;
      const off =
        (j.along === null ? Math.hypot(vx, vy) : Math.abs(Math.cos(j.along) * vy - Math.sin(j.along) * vx)) -
        j.clearance[0];
      if (j.role === 'locator') locators = Math.max(locators, off);
      else fasteners = Math.max(fasteners, off);
    }
    return fasteners + penalty * locators;
  };
  const shifted = (turn: number, within: number): number =>
    valley((tx) => valley((ty) => at(turn, tx, ty), -reach, reach, within), -reach, reach, within);
  let best = 0;
  let least = Infinity;
  const steps = 30;
  for (let i = -steps; i <= steps; i += 1) {
    const turn = (turns * i) / steps;
    const v = shifted(turn, 1e-5);
    if (v < least) {
      least = v;
      best = turn;
    }
  }
  return valley((turn) => shifted(turn, 1e-9), best - (1.5 * turns) / steps, best + (1.5 * turns) / steps, 1e-10);
};
