import type { Box } from '@fayplate/core';
import { type Field, type Lettering, type Shape, shapesBox } from '@fayplate/drawing';
import { type Affine, shifted, unchanged } from '../geometry/affine.js';
import type { Panel } from '../pdf/page.js';
import { type Grid, windowOf } from '../tiles/grid.js';
import type { Mark } from '../tiles/marks.js';
import { type StripWords, acrossShapes, edgeRulers, stripShapes, windowFrame } from './furniture.js';
import { joinLines } from './join-lines.js';
import type { RulerLine } from './ruler.js';

/** A shape with the room it takes, so that each sheet is given only what it shows. */
interface Boxed {
  readonly shape: Shape;
  readonly box: Box;
}

export const boxed = (shapes: readonly Shape[], lettering: Lettering): readonly Boxed[] =>
  shapes.flatMap((shape) => {
    const box = shapesBox([shape], lettering);
    return box === null ? [] : [{ shape, box }];
  });

const meets = (a: Box, b: Box): boolean =>
  a.left <= b.right && b.left <= a.right && a.bottom <= b.top && b.bottom <= a.top;

/** Template mm → page mm of sheet (row, column), before the printer's correction. */
const tilePlace = (grid: Grid, row: number, column: number): Affine => {
  const w = windowOf(grid, row, column);
  const f = grid.frame.window;
  return shifted(f.left - w.left, f.bottom - w.bottom);
};

/** The dressed template: its shapes, and what they cover. */
interface Drawn {
  readonly shapes: readonly Boxed[];
  readonly taken: Field;
  readonly marks: readonly Mark[];
}

interface TileSheet {
  readonly panels: readonly Panel[];
  readonly rulers: readonly RulerLine[];
  readonly place: Affine;
}

/** One sheet of the template: its part of the drawing, cut and glue lines, rulers, strip. */
export const tileSheet = (
  grid: Grid,
  at: { readonly row: number; readonly column: number },
  drawing: Drawn,
  words: StripWords,
  lettering: Lettering,
): TileSheet => {
  const { row, column } = at;
  const window = windowOf(grid, row, column);
  const place = tilePlace(grid, row, column);
  const half = grid.overlap / 2;
  const rulers = edgeRulers(grid.frame, { right: column < grid.columns - 1 ? half : 0, top: row > 0 ? half : 0 });
  const { strip } = grid.frame;
  const cutStrip = { ...strip, right: strip.right - (column < grid.columns - 1 ? half + 1 : 0) };
  return {
    place,
    rulers: rulers.lines,
    panels: [
      {
        place,
        clip: grid.frame.window,
        shapes: drawing.shapes.filter((b) => meets(b.box, window)).map((b) => b.shape),
      },
      {
        place: unchanged,
        clip: null,
        shapes: [
          windowFrame(grid.frame.window),
          ...rulers.shapes,
          ...joinLines(grid, row, column, drawing, lettering),
          ...stripShapes(cutStrip, words, lettering),
          ...acrossShapes(grid.frame.window, words.notice?.across ?? null, lettering),
        ],
      },
    ],
  };
};
