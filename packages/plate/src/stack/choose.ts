import type { StackSpec } from '@fayplate/job';
import { type Window, middleOf, tiny } from './window.js';

/** A pile of shims: its pieces, thickest first, and their sum, mm. */
interface Pile {
  readonly pieces: readonly number[];
  readonly sum: number;
}

/** Piles whose sums agree to a nanometre are one pile. */
const step = 1e-6;
/** Piles looked at before the search is given up: far beyond any real drawer of shims, so that no input can hang it. */
const patience = 2_000_000;

/**
 * Every sum that exactly 1, 2, … `atMost` shims can make, no higher than `highest`, any thickness as often as wanted;
 * one list for each number of pieces. A pile of n + 1 is a pile of n and any one more, so one pile for each sum loses
 * nothing.
 */
export function* pilesOf(sizes: readonly number[], atMost: number, highest: number): Generator<readonly Pile[]> {
  const real = [...new Set(sizes)].filter((s) => s > 0);
  let level: readonly Pile[] = [{ pieces: [], sum: 0 }];
  let tried = 0;
  for (let n = 1; n <= atMost && level.length > 0; n += 1) {
    const next = new Map<number, Pile>();
    tried += level.length * real.length;
    if (tried > patience) return;
    for (const pile of level) {
      for (const size of real) {
        const sum = pile.sum + size;
        const key = Math.round(sum / step);
        if (sum <= highest + tiny && !next.has(key))
          next.set(key, { pieces: [...pile.pieces, size].sort((a, b) => b - a), sum });
      }
    }
    level = [...next.values()];
    yield level;
  }
}

interface Choice {
  readonly thickness: number;
  /** A second thickness on hand that lies with the plate, mm; null: none. */
  readonly spacer: number | null;
  readonly shims: readonly number[];
  readonly total: number;
}

/** A thickness that anyone can mill to, mm; finer ones only where nothing else lies in the window. */
const usualStep = 0.1;
const finerSteps = [0.01, 0.001] as const;

const onGrid = (value: number, step: number): number => Number((Math.round(value / step) * step).toFixed(6));

/** All on hand, or the nearest step to the middle, with `sum` of shims, and its neighbours. */
const thicknesses =
  (spec: StackSpec, step: number) =>
  (middle: number, sum: number): readonly number[] => {
    if (spec.onHand !== null) return spec.onHand;
    const nearest = onGrid(middle - sum, step);
    return [nearest, onGrid(nearest - step, step), onGrid(nearest + step, step)].filter((t) => t > 0);
  };

/** The best total inside the window: nearest its middle; of two equally near the thicker plate, so the thinner pile. */
const best = (
  window: Window,
  piles: readonly Pile[],
  thicknesses: (middle: number, sum: number) => readonly number[],
): Choice | null => {
  const middle = middleOf(window);
  let found: Choice | null = null;
  for (const pile of piles) {
    for (const thickness of thicknesses(middle, pile.sum)) {
      const total = thickness + pile.sum;
      if (total < window.from - tiny || total > window.to + tiny) continue;
      const nearer = found === null ? Infinity : Math.abs(found.total - middle) - Math.abs(total - middle);
      if (nearer > tiny || (nearer > -tiny && found !== null && thickness > found.thickness))
        found = { thickness, spacer: null, shims: pile.pieces, total };
    }
  }
  return found;
};

const bare: Pile = { pieces: [], sum: 0 };

/** Two thicknesses on hand, one on the other: the thicker is the plate, which has the threads. */
const withSpacer = (onHand: readonly number[], window: Window, piles: readonly Pile[]): Choice | null => {
  const pairs = onHand.flatMap((a, i) => onHand.slice(i).map((b) => ({ pieces: [a, b], sum: a + b })));
  const found = best(
    window,
    pairs.flatMap((pair) => piles.map((pile) => ({ pieces: pile.pieces, sum: pile.sum + pair.sum }))),
    () => [0],
  );
  if (found === null) return null;
  const rest = found.total - found.shims.reduce((a, b) => a + b, 0);
  const [pair] = pairs.filter((p) => Math.abs(p.sum - rest) < tiny);
  if (pair === undefined) return null;
  return { ...found, thickness: Math.max(...pair.pieces), spacer: Math.min(...pair.pieces) };
};

/**
 * Plate and shims for an open window, by what the shop has: no shims where a thickness fits alone, else the fewest that
 * do, then two thicknesses together, with shims or without. Where any thickness can be had: one that is bought as it
 * is, else the nearest 0.1 mm, else one milled to 0.01 or 0.001 mm. Null where nothing on hand fits.
 */
export const choose = (spec: StackSpec, window: Window): Choice | null => {
  const bought = spec.onHand === null ? best(window, [bare], () => spec.stock ?? []) : null;
  const alone = bought ?? best(window, [bare], thicknesses(spec, usualStep));
  if (alone !== null) return alone;
  const heaps = (): Iterable<readonly Pile[]> =>
    spec.shims === null ? [] : pilesOf(spec.shims.from, spec.shims.atMost, window.to);
  for (const piles of heaps()) {
    const found = best(window, piles, thicknesses(spec, usualStep));
    if (found !== null) return found;
  }
  if (spec.onHand !== null) {
    const two = withSpacer(spec.onHand, window, [bare]);
    if (two !== null) return two;
    for (const piles of heaps()) {
      const found = withSpacer(spec.onHand, window, piles);
      if (found !== null) return found;
    }
    return null;
  }
  for (const step of finerSteps) {
    const found = best(window, [bare], thicknesses(spec, step));
    if (found !== null) return found;
  }
  return null;
};
