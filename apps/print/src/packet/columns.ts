import type { TableBlock } from '@fayplate/core';
import { type Lettering, wrapText } from '@fayplate/drawing';
import { style } from './piece.js';

/** How a table's columns share the page at one size of letters, mm. */
export interface Layout {
  readonly capital: number;
  readonly lead: number;
  /** Left edge and width of every column. */
  readonly columns: readonly {
    readonly left: number;
    readonly width: number;
    /** Where decimal points stand, from the left edge. */ readonly point: number;
  }[];
  readonly width: number;
}

/** Words in a column of numbers, which stand on its right edge. */
export const isWord = (cell: string): boolean => !/\d/.test(cell);

/** The part of a number before its point, and the rest. */
export const atPoint = (cell: string): readonly [string, string] => {
  const i = /\d[.]\d/.exec(cell);
  return i === null ? [cell, ''] : [cell.slice(0, i.index + 1), cell.slice(i.index + 1)];
};

const longest = (words: string, capital: number, lettering: Lettering, weight: 'regular' | 'bold'): number =>
  Math.max(0, ...words.split(' ').map((w) => lettering.width(w, capital, weight)));

/** Widths that the columns would like, and the least to which wrapping can bring them. */
const wishes = (table: TableBlock, capital: number, lettering: Lettering) =>
  table.columns.map((column, c) => {
    const cells = table.rows.map((row) => row[c] ?? '');
    const head = longest(column.title, capital, lettering, 'bold');
    const title = lettering.width(column.title, capital, 'bold');
    const widest = Math.max(0, ...cells.map((cell) => lettering.width(cell, capital, 'regular')));
    if (column.align !== 'point') {
      const least =
        column.align === 'right'
          ? widest
          : Math.max(0, ...cells.map((cell) => longest(cell, capital, lettering, 'regular')));
      return { wanted: Math.max(widest, title), least: Math.max(Math.min(least, 60), head), after: 0 };
    }
    const parts = cells.filter((cell) => !isWord(cell)).map(atPoint);
    const before = Math.max(0, ...parts.map(([a]) => lettering.width(a, capital, 'regular')));
    const after = Math.max(0, ...parts.map(([, b]) => lettering.width(b, capital, 'regular')));
    const least = Math.max(
      before + after,
      head,
      ...cells.filter(isWord).map((cell) => lettering.width(cell, capital, 'regular')),
    );
    return { wanted: Math.max(least, title), least, after };
  });

/** Room shared out so that small wants are met in full and the large ones get equal parts of what is left. */
export const shareOut = (wants: readonly number[], room: number): readonly number[] => {
  const given = wants.map(() => 0);
  let left = room;
  const order = wants.map((want, i) => ({ want, i })).sort((a, b) => a.want - b.want);
  for (const [k, { want, i }] of order.entries()) {
    const part = Math.min(want, left / (order.length - k));
    given[i] = part;
    left -= part;
  }
  return given;
};

/** The largest size at which the table fits the width: first by wrapping words, then by smaller letters. */
export const layColumns = (
  table: TableBlock,
  width: number,
  lettering: Lettering,
  asked: number = style.table,
): Layout => {
  let capital = asked;
  for (;;) {
    const wish = wishes(table, capital, lettering);
    const gaps = style.columnGap * Math.max(0, wish.length - 1);
    const wanted = wish.reduce((s, w) => s + w.wanted, 0) + gaps;
    const least = wish.reduce((s, w) => s + w.least, 0) + gaps;
    const smallest = capital <= style.smallest + 1e-9;
    if (least <= width || smallest) {
      const extra = shareOut(
        wish.map((w) => w.wanted - w.least),
        Math.max(0, Math.min(width, wanted) - least),
      );
      const squeeze = least > width ? (width - gaps) / (least - gaps) : 1;
      let left = 0;
      const columns = wish.map((w, i) => {
        const own = (w.least + (extra[i] ?? 0)) * squeeze;
        const at = { left, width: own, point: own - w.after };
        left += own + style.columnGap;
        return at;
      });
      return {
        capital,
        lead: Math.max(3.8, capital * (capital > style.table ? 1.8 : 2)),
        columns,
        width: Math.min(width, left - style.columnGap),
      };
    }
    capital = Math.max(style.smallest, capital - 0.1);
  }
};

export const cellLines = (
  cell: string,
  width: number,
  capital: number,
  weight: 'regular' | 'bold',
  lettering: Lettering,
): readonly string[] =>
  lettering.width(cell, capital, weight) <= width + 1e-6 ? [cell] : wrapText(cell, width, capital, weight, lettering);
