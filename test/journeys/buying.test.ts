import { describe, expect, test } from 'vitest';
import { type Bought, bought, judged, kinds } from './buying.js';

/** The small form of `bench/buying.ts`: seeds of its own. */
describe('what `buy` claims comes true, whatever decides it', () => {
  test.each(kinds)('%s', async (kind) => {
    const all: Bought[] = [];
    for (const seed of [71, 72, 73, 74, 75]) all.push(await bought(kind, seed, 30));
    const j = judged(all);
    // Three standard deviations of what five draws of those odds give, at most 0.5 √5; thirty trials make 0.1 each of
    // their own.
    expect(Math.abs(j.came - j.claimed)).toBeLessThan(3 * 0.5 * Math.sqrt(5));
    // Nobody who says one half of all of them does better.
    expect(j.brier).toBeLessThan(0.25);
    // And it is not that all came alike: the sizes were drawn to both sides of what is possible.
    expect(new Set(all.map((b) => b.made)).size).toBe(2);
  });
});
