import type { Point } from '@fayplate/core';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { stockOf } from '../../src/paper/paper.js';
import { heightOf, widthOf } from '../../src/sheet/frame.js';
import {
  type Grid,
  type GridWish,
  LEAST_CLEARANCE,
  bestOffset,
  countFor,
  planGrid,
  windowOf,
} from '../../src/tiles/grid.js';

const wishFor = (paper: string, orientation: GridWish['orientation'] = 'any'): GridWish => {
  const stock = stockOf(paper);
  if (stock === null) throw new Error(paper);
  return { stock, margin: 8, overlap: 10, orientation };
};

const plan = (box: { readonly w: number; readonly h: number }, holes: readonly Point[], wish: GridWish): Grid => {
  const grid = planGrid({ left: 0, bottom: 0, right: box.w, top: box.h }, holes, wish);
  if (grid === null) throw new Error('no grid');
  return grid;
};

const plates = fc
  .record({
    w: fc.double({ min: 60, max: 900, noNaN: true }),
    h: fc.double({ min: 60, max: 900, noNaN: true }),
    n: fc.integer({ min: 1, max: 40 }),
  })
  .chain(({ w, h, n }) =>
    fc.record({
      w: fc.constant(w),
      h: fc.constant(h),
      holes: fc.array(
        fc.record({
          x: fc.double({ min: 5, max: w - 5, noNaN: true }),
          y: fc.double({ min: 5, max: h - 5, noNaN: true }),
        }),
        { minLength: n, maxLength: n },
      ),
    }),
  );

describe('sheets laid over a drawing', () => {
  test('windows cover the whole box, neighbours share the overlap, and no hole centre falls on a join', () => {
    fc.assert(
      fc.property(plates, fc.constantFrom('A4', 'Letter', 'A3', 'Legal'), ({ w, h, holes }, paper) => {
        const grid = plan({ w, h }, holes, wishFor(paper));
        const first = windowOf(grid, 0, 0);
        const last = windowOf(grid, grid.rows - 1, grid.columns - 1);
        expect(first.left).toBeLessThanOrEqual(1e-9);
        expect(first.top).toBeGreaterThanOrEqual(h - 1e-9);
        expect(last.right).toBeGreaterThanOrEqual(w - 1e-9);
        expect(last.bottom).toBeLessThanOrEqual(1e-9);
        const away = [
          ...holes.flatMap((p) => grid.across.joins.map((j) => Math.abs(p.x - j))),
          ...holes.flatMap((p) => grid.up.joins.map((j) => Math.abs(p.y - j))),
        ];
        expect(Math.min(...away, Infinity)).toBeCloseTo(grid.clearance, 9);
        expect(grid.clearance).toBeGreaterThanOrEqual(LEAST_CLEARANCE);
      }),
      { seed: 5, numRuns: 150 },
    );
  });

  test('no more sheets than the plate needs, in the better orientation', () => {
    fc.assert(
      fc.property(plates, ({ w, h }) => {
        const sheets = (g: Grid): number => g.rows * g.columns;
        const any = plan({ w, h }, [], wishFor('A4'));
        const both = (['portrait', 'landscape'] as const).map((o) => sheets(plan({ w, h }, [], wishFor('A4', o))));
        expect(sheets(any)).toBe(Math.min(...both));
        // One column or row fewer would not reach across.
        const pitch = { x: widthOf(any.frame.window) - 10, y: heightOf(any.frame.window) - 10 };
        expect((any.columns - 1) * pitch.x + 10).toBeLessThan(w + 3 + 10 + 1e-6);
        expect((any.rows - 1) * pitch.y + 10).toBeLessThan(h + 3 + 10 + 1e-6);
      }),
      { seed: 6, numRuns: 100 },
    );
  });

  test('a hole in the very middle of two sheets moves the grid, not the count', () => {
    const grid = plan({ w: 300, h: 200 }, [{ x: 150, y: 100 }], wishFor('A4', 'portrait'));
    expect([grid.rows, grid.columns]).toEqual([1, 2]);
    expect(grid.clearance).toBeGreaterThan(10);
  });

  test('holes every 3 mm along the whole width leave 1.5 mm at best, and more sheets do not help: it says so', () => {
    const holes = Array.from({ length: 121 }, (_, i) => ({ x: i * 3, y: 50 }));
    // With this margin a sheet reaches 174 mm further than the one before it: a whole number of threes, so that all
    // joins can stand between holes.
    const grid = plan({ w: 360, h: 100 }, holes, { ...wishFor('A4', 'portrait'), margin: 7 });
    expect(grid.clearance).toBeCloseTo(1.5, 6);
  });

  test('a roll is cut where the drawing ends: one sheet for a plate of three metres', () => {
    const grid = plan({ w: 3000, h: 500 }, [], { ...wishFor('roll 610 mm') });
    expect([grid.rows, grid.columns]).toEqual([1, 1]);
    expect(grid.frame.page.height).toBeCloseTo(610, 9);
    expect(grid.frame.page.width).toBeGreaterThan(3000);
    expect(grid.frame.page.width).toBeLessThan(3060);
  });
});

describe('the offset of a grid', () => {
  const span = { from: 0, to: 500, window: 190, overlap: 10 };

  test('fewest windows: 180 mm further with each', () => {
    expect([190, 190.1, 370, 370.1, 550].map((to) => countFor({ ...span, to }))).toEqual([1, 2, 2, 3, 3]);
  });

  test('is as good as the best of two thousand tried', () => {
    fc.assert(
      fc.property(fc.array(fc.double({ min: 0, max: 500, noNaN: true }), { minLength: 1, maxLength: 30 }), (places) => {
        const best = bestOffset(span, 3, places);
        const lowest = 500 - (2 * 180 + 190);
        const tried = Array.from({ length: 2001 }, (_, i) => lowest + (i / 2000) * (0 - lowest)).map((start) =>
          Math.min(...places.flatMap((p) => [1, 2].map((k) => Math.abs(p - (start + k * 180 + 5))))),
        );
        expect(best.clearance).toBeGreaterThanOrEqual(Math.min(12, Math.max(...tried)) - 0.03);
      }),
      { seed: 8, numRuns: 30 },
    );
  });
});
