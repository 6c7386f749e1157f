import { type TableBlock, minusSign } from '@fayplate/core';
import {
  type Lettering,
  type Shape,
  type Stroke,
  type Weight,
  line,
  moveShape,
  pens,
  rectangle,
  text,
  wrapText,
} from '@fayplate/drawing';
import { type Layout, atPoint, cellLines, isWord, layColumns } from './columns.js';
import { type Piece, piece, style } from './piece.js';
import { linesOf } from './text.js';

const cellShapes = (
  cell: string,
  align: 'left' | 'right' | 'point',
  column: Layout['columns'][number],
  layout: Layout,
  weight: Weight,
  lettering: Lettering,
): { readonly shapes: readonly Shape[]; readonly lines: number } => {
  const { capital, lead } = layout;
  const base = (i: number): number => -(lead + capital) / 2 - i * lead;
  if (align === 'point' && !isWord(cell) && lettering.width(cell, capital, weight) <= column.width + 1e-6) {
    const [before, after] = atPoint(cell);
    const x = column.left + column.point;
    return {
      lines: 1,
      shapes: [
        text('note', { x, y: base(0) }, before, { capital, weight, anchor: 'end' }),
        ...(after === '' ? [] : [text('note', { x, y: base(0) }, after, { capital, weight })]),
      ],
    };
  }
  const lines = cellLines(cell, column.width, capital, weight, lettering);
  const right = align !== 'left';
  return {
    lines: lines.length,
    shapes: lines.map((words, i) =>
      text('note', { x: right ? column.left + column.width : column.left, y: base(i) }, words, {
        capital,
        weight,
        anchor: right ? 'end' : 'start',
      }),
    ),
  };
};

const rowPiece = (
  cells: readonly string[],
  table: TableBlock,
  layout: Layout,
  weight: Weight,
  lettering: Lettering,
  rule: (y: number) => Shape,
): Piece => {
  const head = weight === 'bold';
  const laid = table.columns.map((c, i) => {
    const column = layout.columns[i] ?? { left: 0, width: 0, point: 0 };
    return cellShapes(
      cells[i] ?? '',
      head && c.align === 'point' ? 'right' : c.align,
      column,
      layout,
      weight,
      lettering,
    );
  });
  const lines = Math.max(1, ...laid.map((l) => l.lines));
  const height = lines * layout.lead + 0.6;
  // Titles stand on the rule under them, cells hang from the rule above.
  const down = (l: (typeof laid)[number]): number => (head ? (lines - l.lines) * layout.lead : 0);
  return piece(height, [
    ...laid
      .flatMap((l) => l.shapes.map((s) => moveShape({ turn: 0, mirrored: false, shift: { x: 0, y: -down(l) } }, s)))
      .filter((s) => s.kind !== 'text' || s.text !== ''),
    rule(-height),
  ]);
};

/** Room for a box to tick before a row, mm. */
const TICK = 6;

const movedBy = (by: number, layout: Layout): Layout =>
  by === 0
    ? layout
    : { ...layout, width: layout.width + by, columns: layout.columns.map((c) => ({ ...c, left: c.left + by })) };

/** A box to tick when the cut is done, as high as its line. */
const tickBox = ({ lead }: Layout): Shape => {
  const size = Math.min(3.4, lead - 0.6);
  const top = -(lead + 0.6 - size) / 2;
  return rectangle('note', { left: 0, right: size, top, bottom: top - size }, pens.narrow);
};

/** A line across the table above the rows that it names. */
const titlePiece = (title: string, layout: Layout, lettering: Lettering): Piece => {
  const { capital, lead } = layout;
  const lines = wrapText(title, layout.width, capital, 'bold', lettering);
  return piece(lines.length * lead + 0.6, linesOf(lines, 0, capital, 'bold', lead));
};

/**
 * A table as pieces: caption and head stay with the first two rows, the last two rows stay together, the head comes
 * again after a break.
 */
export const tablePieces = (
  given: TableBlock,
  width: number,
  lettering: Lettering,
  asked: number = style.table,
): readonly Piece[] => {
  const table = { ...given, rows: given.rows.map((row) => row.map(minusSign)) };
  const ticked = table.cutsOf !== undefined;
  const layout = movedBy(ticked ? TICK : 0, layColumns(table, width - (ticked ? TICK : 0), lettering, asked));
  const across =
    (pen: Stroke, grey: number) =>
    (y: number): Shape =>
      line('note', { x: 0, y }, { x: layout.width, y }, { ...pen, grey });
  const head = rowPiece(
    table.columns.map((c) => c.title),
    table,
    layout,
    'bold',
    lettering,
    across(pens.narrow, 0),
  );
  const words = table.caption === null ? [] : wrapText(table.caption, width, style.text, 'bold', lettering);
  const captions =
    words.length === 0
      ? []
      : [
          piece(words.length * style.lead, linesOf(words, 0, style.text, 'bold', style.lead), {
            above: style.lead / 2,
            withNext: true,
          }),
        ];
  const last = table.rows.length - 1;
  const above = table.columns.map(() => '');
  const rows = table.rows.map((cells, i): Piece => {
    const rule = across(pens.hair, i === last ? 0 : 0.65);
    const said = table.columns.map((c, k) => (c.runsOn === true ? cells[k] || above[k] : cells[k]) ?? '');
    for (const [k, words] of said.entries()) above[k] = words;
    const withNext = (i === 0 && last > 0) || i === last - 1;
    const box = ticked ? [tickBox(layout)] : [];
    const drawn = (words: readonly string[]): Piece => {
      const own = rowPiece(words, table, layout, 'regular', lettering, rule);
      return { ...own, shapes: [...box, ...own.shapes], head, withNext };
    };
    const row = drawn(cells);
    return said.every((words, k) => words === (cells[k] ?? '')) ? row : { ...row, first: drawn(said) };
  });
  const titles = new Map((table.groups ?? []).map((g) => [g.from, g.title]));
  const grouped = rows.flatMap((row, i): readonly Piece[] => {
    const title = titles.get(i);
    return title === undefined ? [row] : [{ ...titlePiece(title, layout, lettering), head, withNext: true }, row];
  });
  return [
    ...captions,
    { ...head, above: table.caption === null ? style.lead / 2 : 0, withNext: rows.length > 0 },
    ...grouped,
  ];
};
