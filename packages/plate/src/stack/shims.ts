import { tiny } from './window.js';

/** A pile of shims: its pieces, thickest first, and their sum, mm. */
export interface Pile {
  readonly pieces: readonly number[];
  readonly sum: number;
}

/** Piles whose sums agree to a nanometre are one pile. */
const step = 1e-6;
/** Piles looked at before the search is given up: far beyond any real drawer of shims, so that no input can hang it. */
const patience = 2_000_000;

/**
 * Every sum that exactly 1, 2, … `atMost` shims can make, no higher than `highest`, any thickness as often as wanted; one
 * list for each number of pieces. A pile of n + 1 is a pile of n and any one more, so one pile for each sum loses nothing.
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
