import type { StackSpec } from '@fayplate/job';
import { type Pile, pilesOf } from './shims.js';
import { type Window, middleOf, tiny } from './window.js';

export interface Choice {
  readonly thickness: number;
  readonly shims: readonly number[];
  readonly total: number;
}

/** A thickness that anyone can mill to, mm; finer ones only where nothing else lies in the window. */
const usualStep = 0.1;
const finerSteps = [0.01, 0.001] as const;

const onGrid = (value: number, step: number): number => Number((Math.round(value / step) * step).toFixed(6));

/** Thicknesses that, with `sum` of shims on them, come nearest to the middle: all on hand, or the nearest step and its neighbours. */
const thicknesses = (spec: StackSpec, middle: number, sum: number, step: number): readonly number[] => {
  if (spec.onHand !== null) return spec.onHand;
  const nearest = onGrid(middle - sum, step);
  return [nearest, onGrid(nearest - step, step), onGrid(nearest + step, step)].filter((t) => t > 0);
};

/** The best total inside the window: nearest its middle; of two equally near the thicker plate, so the thinner pile. */
const best = (spec: StackSpec, window: Window, piles: readonly Pile[], step: number): Choice | null => {
  const middle = middleOf(window);
  let found: Choice | null = null;
  for (const pile of piles) {
    for (const thickness of thicknesses(spec, middle, pile.sum, step)) {
      const total = thickness + pile.sum;
      if (total < window.from - tiny || total > window.to + tiny) continue;
      const nearer = found === null ? Infinity : Math.abs(found.total - middle) - Math.abs(total - middle);
      if (nearer > tiny || (nearer > -tiny && found !== null && thickness > found.thickness))
        found = { thickness, shims: pile.pieces, total };
    }
  }
  return found;
};

const bare: Pile = { pieces: [], sum: 0 };

/**
 * Plate and shims for an open window: no shims where a thickness fits alone, else the fewest that do; where nothing fits and
 * any thickness can be had, one milled to 0.01 or 0.001 mm. Null where nothing on hand fits.
 */
export const choose = (spec: StackSpec, window: Window): Choice | null => {
  const alone = best(spec, window, [bare], usualStep);
  if (alone !== null) return alone;
  if (spec.shims !== null) {
    for (const piles of pilesOf(spec.shims.from, spec.shims.atMost, window.to)) {
      const found = best(spec, window, piles, usualStep);
      if (found !== null) return found;
    }
  }
  if (spec.onHand !== null) return null;
  for (const step of finerSteps) {
    const found = best(spec, window, [bare], step);
    if (found !== null) return found;
  }
  return null;
};
