import type { Box } from '@fayplate/core';
import { type Lettering, type Shape, circle, group, line, pathShape, pens, rectangle, text } from '@fayplate/drawing';
import { type Affine, carry, carryPath, scaled, shifted, chain } from '../geometry/affine.js';
import type { Panel } from '../pdf/page.js';
import type { Template } from '../template/types.js';
import { type Grid, windowOf } from '../tiles/grid.js';
import type { Mark } from '../tiles/marks.js';
import { type StripWords, stripShapes } from './furniture.js';
import { sheetName } from './join-lines.js';
import { wrapText } from './wrap.js';

/** What the key sheet tells: pairs for the title block, sentences for the work. */
export interface KeyWords {
  readonly block: readonly (readonly [name: string, value: string])[];
  readonly steps: readonly string[];
}

const fitBox = (inner: Box, outer: Box): { readonly place: Affine; readonly k: number } => {
  const k = Math.min(1, (outer.right - outer.left) / (inner.right - inner.left), (outer.top - outer.bottom) / (inner.top - inner.bottom));
  const centre = { x: (inner.left + inner.right) / 2, y: (inner.bottom + inner.top) / 2 };
  const to = { x: (outer.left + outer.right) / 2, y: (outer.bottom + outer.top) / 2 };
  return { k, place: chain(chain(shifted(-centre.x, -centre.y), scaled(k)), shifted(to.x, to.y)) };
};

const NAME = 2;

/** The whole plate made small: outline, hole centres, joins and sheet numbers. */
const mapShapes = (template: Template, grid: Grid, marks: readonly Mark[], room: Box): readonly Shape[] => {
  const { place, k } = fitBox(grid.covered, room);
  const sheets: Shape[] = [];
  const tiny = k * (grid.frame.window.right - grid.frame.window.left) < 12;
  for (let row = 0; row < grid.rows; row++) {
    for (let column = 0; column < grid.columns; column++) {
      const w = windowOf(grid, row, column);
      const half = grid.overlap / 2;
      const a = carry(place, { x: w.left + (column > 0 ? half : 0), y: w.bottom + (row < grid.rows - 1 ? half : 0) });
      const b = carry(place, { x: w.right - (column < grid.columns - 1 ? half : 0), y: w.top - (row > 0 ? half : 0) });
      sheets.push(rectangle('note', { left: a.x, bottom: a.y, right: b.x, top: b.y }, pens.hair));
      sheets.push(text('note', { x: a.x + 1.2, y: b.y - (tiny ? 2.2 : 4.4) }, sheetName(row, column), { capital: tiny ? 1.4 : 3, weight: 'bold', grey: 0.35 }));
    }
  }
  const outlines = template.outlines.map((path) => pathShape('note', carryPath(place, path), pens.narrow));
  const holes = template.holes.map((h) => {
    const at = carry(place, h.at);
    const r = Math.max(0.5, (h.keep - 3) * k);
    return group(null, [circle('note', at, r, pens.hair), text('note', { x: at.x + r + 0.4, y: at.y - NAME / 2 }, h.id, { capital: Math.min(NAME, Math.max(1.2, 8 * k)) })]);
  });
  const spots = marks.map((m) => {
    const at = carry(place, m.at);
    return circle('note', at, 0.6, null, 0);
  });
  return [...sheets, ...outlines, ...holes, ...spots];
};

const blockShapes = (pairs: KeyWords['block'], box: Box, lettering: Lettering): { readonly shapes: readonly Shape[]; readonly bottom: number } => {
  const named = Math.max(...pairs.map(([name]) => lettering.width(name, 1.9, 'regular'))) + 4;
  const shapes: Shape[] = [];
  let y = box.top - 3.6;
  for (const [name, value] of pairs) {
    shapes.push(text('note', { x: box.left, y }, name, { capital: 1.9 }));
    for (const part of wrapText(value, box.right - box.left - named, 2.1, 'bold', lettering)) {
      shapes.push(text('note', { x: box.left + named, y }, part, { capital: 2.1, weight: 'bold' }));
      y -= 4;
    }
  }
  return { shapes, bottom: y };
};

const stepShapes = (steps: readonly string[], box: Box, lettering: Lettering): { readonly shapes: readonly Shape[]; readonly bottom: number } => {
  const shapes: Shape[] = [];
  let y = box.top - 3.6;
  for (const [i, step] of steps.entries()) {
    shapes.push(text('note', { x: box.left, y }, `${i + 1}`, { capital: 2.1, weight: 'bold' }));
    for (const part of wrapText(step, box.right - box.left - 5, 2.1, 'regular', lettering)) {
      shapes.push(text('note', { x: box.left + 5, y }, part, { capital: 2.1 }));
      y -= 4;
    }
    y -= 0.8;
  }
  return { shapes, bottom: y };
};

/** The first page: a small map of the sheets, the title block and what to do. */
export const keySheet = (template: Template, grid: Grid, marks: readonly Mark[], words: KeyWords, strip: StripWords, lettering: Lettering): readonly Panel[] => {
  const { page, margin } = grid.frame;
  const top = page.height - margin;
  const left = margin;
  const right = page.width - margin;
  const middle = (left + right) / 2;
  // The words are laid first, from a trial at the top, to find how much room is left for the map.
  const trial = Math.min(
    blockShapes(words.block, { left, right: middle - 3, top: 0, bottom: 0 }, lettering).bottom,
    stepShapes(words.steps, { left: middle + 3, right, top: 0, bottom: 0 }, lettering).bottom,
  );
  const floor = grid.frame.strip.top + 3;
  const wordsTop = floor - trial;
  const block = blockShapes(words.block, { left, right: middle - 3, top: wordsTop, bottom: floor }, lettering);
  const steps = stepShapes(words.steps, { left: middle + 3, right, top: wordsTop, bottom: floor }, lettering);
  const map = mapShapes(template, grid, marks, { left, right, top, bottom: wordsTop + 3 });
  return [
    {
      place: [1, 0, 0, 1, 0, 0],
      clip: null,
      shapes: [
        ...map,
        line('note', { x: left, y: wordsTop }, { x: right, y: wordsTop }, pens.hair),
        ...block.shapes,
        ...steps.shapes,
        ...stripShapes(grid.frame.strip, strip, lettering),
      ],
    },
  ];
};
