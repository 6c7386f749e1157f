import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { solveStack } from '../../src/index.js';
import { limit, pump, stack } from './support.js';

describe('plate and shims', () => {
  test('no shims where a thickness on hand fits alone', () => {
    const r = solveStack(pump({ onHand: [18, 18.5, 20], shims: { from: [0.1], atMost: 3 } }));
    expect(r).toMatchObject({ chosen: 18.5, shims: [], ok: true });
  });
  test('the fewest pieces, nearest the middle of the window', () => {
    const r = solveStack(pump({ onHand: [16, 17], shims: { from: [0.1, 0.25, 0.5], atMost: 3 } }));
    // Window 17.9 … 18.9: from 17 two pieces reach it (0.5 + 0.5 = 18.0), three come nearer to 18.4 but are more.
    expect(r).toMatchObject({ chosen: 17, shims: [0.5, 0.5], total: 18, ok: true });
  });
  test.each([[[18, 18.8]], [[18.8, 18]]])('of %j, equally near the middle of 17.9 to 18.9, the thicker', (onHand) => {
    expect(solveStack(pump({ onHand }))).toMatchObject({ chosen: 18.8, ok: true });
  });
  test('nothing on hand fits', () => {
    const r = solveStack(pump({ onHand: [10], shims: { from: [0.1], atMost: 3 } }));
    expect(r).toMatchObject({ chosen: null, shims: [], ok: false, conflict: null });
  });
  test('a window finer than a tenth is met by a shim, or by finer milling where there are none', () => {
    const narrow = (rest: object) => stack({ a: [10, 0.01] }, [limit('gap', { a: 1, plate: 1 }, 30.03, 30.09)], rest);
    expect(solveStack(narrow({}))).toMatchObject({ chosen: 20.06, shims: [], ok: true });
    const shimmed = solveStack(narrow({ shims: { from: [0.05], atMost: 2 } }));
    expect(shimmed).toMatchObject({ chosen: 20, shims: [0.05], ok: true });
    // A thick shim takes as much from the plate.
    expect(solveStack(narrow({ shims: { from: [3.05], atMost: 1 } }))).toMatchObject({
      chosen: 17,
      shims: [3.05],
      ok: true,
    });
  });

  /** Every multiset of shims, by brute force. */
  const fewest = (
    hands: readonly number[],
    sizes: readonly number[],
    atMost: number,
    from: number,
    to: number,
  ): number | null => {
    let sums = [0];
    for (let n = 0; n <= atMost; n += 1) {
      if (sums.some((s) => hands.some((t) => t + s >= from - 1e-9 && t + s <= to + 1e-9))) return n;
      sums = sums.flatMap((s) => sizes.map((x) => s + x));
    }
    return null;
  };
  const hundredths = (min: number, max: number) => fc.integer({ min, max }).map((n) => n / 100);
  test('as few pieces as brute force finds, and no fit missed', () => {
    fc.assert(
      fc.property(
        fc.array(hundredths(500, 2000), { minLength: 1, maxLength: 3 }),
        fc.array(hundredths(5, 120), { minLength: 1, maxLength: 4 }),
        fc.integer({ min: 0, max: 4 }),
        hundredths(600, 2200),
        hundredths(0, 30),
        (onHand, from, atMost, low, width) => {
          const spec = stack({ a: [1, 0] }, [limit('gap', { a: 1, plate: 1 }, 1 + low, 1 + low + width)], {
            onHand,
            shims: { from, atMost },
          });
          const r = solveStack(spec);
          const want = fewest(onHand, from, atMost, low, low + width);
          // Two thicknesses together only where none alone will do.
          expect(r.chosen === null || r.spacer !== null ? null : r.shims.length).toBe(want);
          expect(
            r.chosen === null ||
              Math.abs([...r.shims, r.spacer ?? 0].reduce((a, b) => a + b, r.chosen) - (r.total ?? 0)) < 1e-9,
          ).toBe(true);
          expect(r.chosen === null || r.limits.every((l) => l.ok)).toBe(true);
        },
      ),
      { seed: 20_261, numRuns: 400 },
    );
  });

  test('a drawer beyond reason is given up, not hung on', () => {
    const from = Array.from({ length: 3000 }, (_, i) => 0.000_001 * (i + 1) * 1.37);
    const r = solveStack(pump({ onHand: [1], shims: { from, atMost: 20 } }));
    expect(r.chosen).toBeNull();
  });
});

describe('thickness as it is bought', () => {
  test('a size that is sold, where one lies in the window, before one that has to be milled', () => {
    // 12.4 to 12.8 mm: 1/2 in is 12.7; the middle would be milled.
    const half = (stock: readonly number[]) =>
      stack({ a: [10, 0] }, [limit('gap', { a: 1, plate: 1 }, 22.4, 22.8)], { stock });
    expect(solveStack(half([9.525, 12.7, 15.875])).chosen).toBeCloseTo(12.7, 9);
    expect(solveStack(half([10, 15])).chosen).toBeCloseTo(12.6, 9);
  });
  test('what is on hand goes before what is sold', () =>
    expect(solveStack(pump({ onHand: [18.5], stock: [18] })).chosen).toBe(18.5));
  test('two thicknesses on hand where one alone does not reach: 25 and 30 where 55 is wanted', () => {
    const deep = (rest: object) => stack({ a: [10, 0] }, [limit('gap', { a: 1, plate: 1 }, 64.9, 65.1)], rest);
    const r = solveStack(deep({ onHand: [25, 30] }));
    expect(r).toMatchObject({ chosen: 30, spacer: 25, shims: [], total: 55, ok: true });
    const shimmed = solveStack(deep({ onHand: [25, 29.5], shims: { from: [0.25], atMost: 3 } }));
    expect(shimmed).toMatchObject({ chosen: 29.5, spacer: 25, shims: [0.25, 0.25], total: 55, ok: true });
    expect(solveStack(deep({ onHand: [20, 30] }))).toMatchObject({ chosen: null, spacer: null, ok: false });
  });
});
