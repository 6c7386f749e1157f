import type { Box, Point } from '@fayplate/core';
import { LONGEST_PAGE, type Stock } from '../paper/paper.js';
import { type Frame, LEAST_WINDOW, frameOf, heightOf, pageFor, widthOf } from '../sheet/frame.js';

/** One direction of the grid: where its joins fall and how far the nearest hole centre is from one. */
interface Cut {
  /** Where the first window starts. */
  readonly start: number;
  readonly joins: readonly number[];
  /** mm; infinite where there is no join or no hole. */
  readonly clearance: number;
}

interface Span {
  /** What must be covered. */
  readonly from: number;
  readonly to: number;
  /** Length of one window and of what two neighbours share. */
  readonly window: number;
  readonly overlap: number;
}

/** Fewest windows that cover the span. */
export const countFor = ({ from, to, window, overlap }: Span): number =>
  to - from <= window ? 1 : Math.ceil((to - from - overlap) / (window - overlap) - 1e-9);

const joinsFrom = (start: number, count: number, { window, overlap }: Span): readonly number[] =>
  Array.from({ length: count - 1 }, (_, k) => start + (k + 1) * (window - overlap) + overlap / 2);

const clearanceOf = (joins: readonly number[], sorted: readonly number[]): number => {
  let least = Infinity;
  for (const join of joins) {
    let lo = 0;
    let hi = sorted.length;
    while (lo < hi) {
      const mid = (lo + hi) >> 1;
      if ((sorted[mid] ?? Infinity) < join) lo = mid + 1;
      else hi = mid;
    }
    least = Math.min(least, join - (sorted[lo - 1] ?? -Infinity), (sorted[lo] ?? Infinity) - join);
  }
  return least;
};

/**
 * The offset of a grid of `count` windows over the span that keeps joins farthest from the places (hole centres). All
 * joins move together, so seen from the grid the places fall into one pitch; between neighbours there the middle is
 * best, and so are the two ends of the play: one of these is the answer. Where all are equal the drawing stands in the
 * middle.
 */
export const bestOffset = (span: Span, count: number, places: readonly number[]): Cut => {
  const pitch = span.window - span.overlap;
  const covered = (count - 1) * pitch + span.window;
  const lowest = span.to - covered;
  const middle = (span.from + lowest) / 2;
  const at = (start: number): Cut => {
    const joins = joinsFrom(start, count, span);
    return { start, joins, clearance: clearanceOf(joins, sorted) };
  };
  const sorted = [...places].sort((a, b) => a - b);
  if (count === 1) return { ...at(middle), clearance: Infinity };
  const phase = (x: number): number => (((x - span.overlap / 2 - lowest) % pitch) + pitch) % pitch;
  const phases = [...new Set(places.map(phase))].sort((a, b) => a - b);
  const between = phases.map((p, i) => {
    const next = phases[i + 1] ?? (phases[0] ?? 0) + pitch;
    return lowest + (((p + next) / 2) % pitch);
  });
  const starts = [middle, lowest, span.from, ...between].filter((s) => s >= lowest - 1e-9 && s <= span.from + 1e-9);
  // Joins farther than this from every centre are as good as can be: then the middle is chosen.
  const enough = 12;
  const score = (c: Cut): number => Math.min(c.clearance, enough);
  return starts.map(at).reduce((best, c) => (score(c) > score(best) + 1e-9 ? c : best));
};

/** Sheets laid over the drawing: rows from the top, columns from the left, both counted from 0. */
export interface Grid {
  readonly frame: Frame;
  readonly overlap: number;
  readonly columns: number;
  readonly rows: number;
  readonly across: Cut;
  readonly up: Cut;
  /** Distance of the hole centre nearest to a join, mm. */
  readonly clearance: number;
  /** What all windows cover together, template mm. */
  readonly covered: Box;
  /**
   * Room kept at the left and below for the long rulers that cross the joins, template mm; null where nothing is joined
   * that way.
   */
  readonly longRulers: { readonly across: number | null; readonly up: number | null };
}

/** A hole centre nearer to a join than this would be cut through when the paper is: more sheets are taken instead. */
export const LEAST_CLEARANCE = 2;
/** Bare paper between the outline and the window's edge, mm. */
const PAD = 1.5;
const LONG_RULER = 10;

export interface GridWish {
  readonly stock: Stock;
  readonly margin: number;
  readonly overlap: number;
  readonly orientation: 'any' | 'portrait' | 'landscape';
}

/** Window of sheet (row, column) in template mm. */
export const windowOf = (grid: Grid, row: number, column: number): Box => {
  const w = widthOf(grid.frame.window);
  const h = heightOf(grid.frame.window);
  const left = grid.across.start + column * (w - grid.overlap);
  const bottom = grid.up.start + (grid.rows - 1 - row) * (h - grid.overlap);
  return { left, right: left + w, bottom, top: bottom + h };
};

const layFor = (
  frame: Frame,
  overlap: number,
  box: Box,
  holes: readonly Point[],
  extra: { readonly columns: number; readonly rows: number },
): Grid | null => {
  const window = { width: widthOf(frame.window), height: heightOf(frame.window) };
  if (window.width < LEAST_WINDOW || window.height < LEAST_WINDOW) return null;
  // A long ruler is only wanted where sheets are joined, and may itself make one more sheet needed.
  const spans = (long: { readonly across: boolean; readonly up: boolean }): readonly [Span, Span] => [
    { from: box.left - PAD - (long.up ? LONG_RULER : 0), to: box.right + PAD, window: window.width, overlap },
    { from: box.bottom - PAD - (long.across ? LONG_RULER : 0), to: box.top + PAD, window: window.height, overlap },
  ];
  let long = { across: false, up: false };
  let counts = { columns: 1, rows: 1 };
  for (let turn = 0; turn < 3; turn++) {
    const [x, y] = spans(long);
    counts = { columns: countFor(x) + extra.columns, rows: countFor(y) + extra.rows };
    long = { across: counts.columns > 1, up: counts.rows > 1 };
  }
  const [x, y] = spans(long);
  const across = bestOffset(
    x,
    counts.columns,
    holes.map((p) => p.x),
  );
  const up = bestOffset(
    y,
    counts.rows,
    holes.map((p) => p.y),
  );
  const covered = {
    left: across.start,
    right: across.start + (counts.columns - 1) * (window.width - overlap) + window.width,
    bottom: up.start,
    top: up.start + (counts.rows - 1) * (window.height - overlap) + window.height,
  };
  return {
    frame,
    overlap,
    ...counts,
    across,
    up,
    clearance: Math.min(across.clearance, up.clearance),
    covered,
    longRulers: {
      across: long.across ? covered.bottom + LONG_RULER / 2 : null,
      up: long.up ? covered.left + LONG_RULER / 2 : null,
    },
  };
};

const framesFor = ({ stock, margin, orientation }: GridWish, box: Box): readonly Frame[] => {
  const need = pageFor({ width: widthOf(box) + 2 * PAD + 1e-6, height: heightOf(box) + 2 * PAD + 1e-6 }, margin);
  const long = (v: number): number => Math.min(v, LONGEST_PAGE);
  const upright =
    stock.height === null
      ? { width: stock.width, height: long(need.height) }
      : { width: stock.width, height: stock.height };
  const lying =
    stock.height === null
      ? { width: long(need.width), height: stock.width }
      : { width: stock.height, height: stock.width };
  const pages = orientation === 'portrait' ? [upright] : orientation === 'landscape' ? [lying] : [upright, lying];
  return pages.map((page) => frameOf(page, margin));
};

const better = (a: Grid, b: Grid): boolean => {
  const sheets = (g: Grid): number => g.columns * g.rows;
  if (sheets(a) !== sheets(b)) return sheets(a) < sheets(b);
  const area = (g: Grid): number => g.frame.page.width * g.frame.page.height;
  if (area(a) !== area(b)) return area(a) < area(b);
  return Math.min(a.clearance, 12) > Math.min(b.clearance, 12) + 1e-9;
};

/**
 * Fewest sheets that hold the box with no hole centre nearer than 2 mm to a join, in the better orientation; among
 * equals the one whose joins stay farthest from hole centres. Where even three more rows or columns leave a centre on a
 * join, the best of all (its `clearance` says so). Null where no window of use is left on the paper.
 */
export const planGrid = (box: Box, holes: readonly Point[], wish: GridWish): Grid | null => {
  const all = framesFor(wish, box).flatMap((frame) =>
    [0, 1, 2, 3].flatMap((columns) =>
      [0, 1, 2, 3].map((rows) => layFor(frame, wish.overlap, box, holes, { columns, rows })),
    ),
  );
  const grids = all.filter((g) => g !== null);
  const clear = grids.filter((g) => g.clearance >= LEAST_CLEARANCE);
  if (clear.length > 0) return clear.reduce((best, g) => (better(g, best) ? g : best));
  return grids.reduce<Grid | null>(
    (best, g) => (best === null || g.clearance > best.clearance + 1e-9 ? g : best),
    null,
  );
};
