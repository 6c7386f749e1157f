import { type Box, type Point, add } from '@fayplate/core';
import { type Field, type Lettering, type Shape, line, pens, text } from '@fayplate/drawing';
import { type Grid, windowOf } from '../tiles/grid.js';
import { type Mark, markRadius, marksOn } from '../tiles/marks.js';

/** A person counts sheets from 1: row, column. */
export const sheetName = (row: number, column: number): string => `${row + 1},${column + 1}`;

const CAPITAL = 1.8;

interface JoinSide {
  /** In full, then shorter, for where there is less room. */
  readonly words: readonly string[];
  /** The line runs up the page or across it, at this x or y. */
  readonly along: 'up' | 'across';
  readonly at: number;
  readonly cut: boolean;
}

/**
 * Where a sheet is cut and where its neighbours come to lie, page mm. The left sheet lies on the right one and the
 * lower on the upper, so that cuts run along the two sides without rulers: right and top.
 */
const sidesOf = (grid: Grid, row: number, column: number): readonly JoinSide[] => {
  const { window } = grid.frame;
  const d = grid.overlap / 2;
  const side = (
    there: boolean,
    words: readonly string[],
    along: JoinSide['along'],
    at: number,
    cut: boolean,
  ): readonly JoinSide[] => (there ? [{ words, along, at, cut }] : []);
  const glue = (name: string): readonly string[] => [
    `glue · the edge of sheet ${name} comes to this line`,
    `glue · edge of sheet ${name} to here`,
    `glue ${name} to here`,
  ];
  const cut = (name: string): readonly string[] => [
    `cut here, then lay on sheet ${name}`,
    `cut, lay on sheet ${name}`,
    `cut, on ${name}`,
  ];
  return [
    ...side(column < grid.columns - 1, cut(sheetName(row, column + 1)), 'up', window.right - d, true),
    ...side(row > 0, cut(sheetName(row - 1, column)), 'across', window.top - d, true),
    ...side(column > 0, glue(sheetName(row, column - 1)), 'up', window.left + d, false),
    ...side(row < grid.rows - 1, glue(sheetName(row + 1, column)), 'across', window.bottom + d, false),
  ];
};

const sideLines = (s: JoinSide, grid: Grid, marks: readonly Point[]): readonly Shape[] => {
  const { window, margin, page } = grid.frame;
  // A cut runs over the whole sheet, a glue line over the drawing only.
  const box: Box = s.cut
    ? { left: margin, bottom: margin, right: page.width - margin, top: page.height - margin }
    : window;
  const [from, to] = s.along === 'up' ? [box.bottom, box.top] : [box.left, box.right];
  const at = (u: number): Point => (s.along === 'up' ? { x: s.at, y: u } : { x: u, y: s.at });
  // Broken at the marks, whose own arms lie in the join.
  const r = markRadius(grid.overlap) + 0.5;
  const stops = marks
    .filter((m) => Math.abs((s.along === 'up' ? m.x : m.y) - s.at) < 1e-6)
    .map((m) => (s.along === 'up' ? m.y : m.x))
    .sort((a, b) => a - b);
  const starts = [from, ...stops.map((u) => u + r)];
  const ends = [...stops.map((u) => u - r), to];
  return starts.flatMap((u, i) => {
    const end = ends[i] ?? to;
    return end > u ? [line('note', at(u), at(end), s.cut ? pens.cutLine : pens.hair)] : [];
  });
};

/**
 * The words of a side lie in the strip that is cut off or covered, in the first stretch with nothing else in it that
 * holds them, in full or shorter.
 */
const sideWords = (s: JoinSide, grid: Grid, shift: Point, taken: Field, lettering: Lettering): readonly Shape[] => {
  const { window } = grid.frame;
  // Cut words stand right of or above their line, glue words left of or below it.
  const near = s.cut ? s.at + 0.9 : s.at - 0.9 - CAPITAL;
  const [from, to] = s.along === 'up' ? [window.bottom, window.top] : [window.left, window.right];
  for (const words of s.words) {
    const length = lettering.width(words, CAPITAL, 'regular');
    for (let u = from + 6; u + length < to - 6; u += 4) {
      const box: Box =
        s.along === 'up'
          ? { left: near - 0.4, right: near + CAPITAL + 0.4, bottom: u - 1, top: u + length + 1 }
          : { left: u - 1, right: u + length + 1, bottom: near - 0.6, top: near + CAPITAL + 0.4 };
      if (
        taken.coversBox({
          left: box.left - shift.x,
          right: box.right - shift.x,
          bottom: box.bottom - shift.y,
          top: box.top - shift.y,
        })
      )
        continue;
      const at = s.along === 'up' ? { x: near + CAPITAL, y: u } : { x: u, y: near };
      return [text('note', at, words, { capital: CAPITAL, turn: s.along === 'up' ? Math.PI / 2 : 0 })];
    }
  }
  return [];
};

/**
 * Cut and glue lines of one sheet with their words; `taken` is what the drawing holds, template mm; `marks` those of
 * this sheet.
 */
export const joinLines = (
  grid: Grid,
  row: number,
  column: number,
  drawing: { readonly taken: Field; readonly marks: readonly Mark[] },
  lettering: Lettering,
): readonly Shape[] => {
  const w = windowOf(grid, row, column);
  const shift = { x: grid.frame.window.left - w.left, y: grid.frame.window.bottom - w.bottom };
  const marks = marksOn(grid, drawing.marks, row, column).map((m) => add(m.at, shift));
  return sidesOf(grid, row, column).flatMap((s) => [
    ...sideLines(s, grid, marks),
    ...sideWords(s, grid, shift, drawing.taken, lettering),
  ]);
};
