import type { Point } from '@fayplate/core';
import { type Lettering, type Shape, line, pens, text } from '@fayplate/drawing';

/** Capitals and lines of a table on the sheet, mm. */
const TABLE = { capital: 2, row: 4.2, gap: 3 } as const;

export interface SheetTable {
  readonly caption: string;
  readonly heads: readonly string[];
  /** Columns of numbers stand on their right edge. */
  readonly right: readonly boolean[];
  readonly rows: readonly (readonly string[])[];
}

const widthsOf = (t: SheetTable, lettering: Lettering): readonly number[] =>
  t.heads.map((head, c) =>
    Math.max(
      lettering.width(head, TABLE.capital, 'bold'),
      ...t.rows.map((r) => lettering.width(r[c] ?? '', TABLE.capital, 'regular')),
    ),
  );

/** Width and height of a table, mm. */
export const tableSize = (
  t: SheetTable,
  lettering: Lettering,
): { readonly width: number; readonly height: number } => ({
  width: widthsOf(t, lettering).reduce((a, b) => a + b + TABLE.gap, 0),
  height: (t.rows.length + 2) * TABLE.row,
});

/** A table with its left upper corner at `at`. */
export const tableShapes = (t: SheetTable, at: Point, lettering: Lettering): readonly Shape[] => {
  const widths = widthsOf(t, lettering);
  const lefts = widths.map((_, i) => at.x + widths.slice(0, i).reduce((a, b) => a + b + TABLE.gap, 0));
  const right = at.x + tableSize(t, lettering).width - TABLE.gap;
  const cells = (row: readonly string[], y: number, weight: 'bold' | 'regular'): readonly Shape[] =>
    row.map((words, c) => {
      const end = t.right[c] === true;
      const x = (lefts[c] ?? 0) + (end ? (widths[c] ?? 0) : 0);
      return text('note', { x, y }, words, { capital: TABLE.capital, weight, anchor: end ? 'end' : 'start' });
    });
  const base = (i: number): number => at.y - (i + 1) * TABLE.row + (TABLE.row - TABLE.capital) / 2;
  return [
    text('note', { x: at.x, y: base(0) }, t.caption, { capital: TABLE.capital, weight: 'bold' }),
    ...cells(t.heads, base(1), 'bold'),
    line('note', { x: at.x, y: base(1) - 1 }, { x: right, y: base(1) - 1 }, pens.narrow),
    ...t.rows.flatMap((row, i) => cells(row, base(i + 2), 'regular')),
    line(
      'note',
      { x: at.x, y: base(t.rows.length + 1) - 1 },
      { x: right, y: base(t.rows.length + 1) - 1 },
      pens.narrow,
    ),
  ];
};
