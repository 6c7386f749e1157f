import type { Box } from '@fayplate/core';
import { type Lettering, type Shape, line, pens, text, wrapText } from '@fayplate/drawing';
import { unchanged } from '../geometry/affine.js';
import type { Panel } from '../pdf/page.js';
import type { Template } from '../template/types.js';
import type { Grid } from '../tiles/grid.js';
import type { Mark } from '../tiles/marks.js';
import { type StripWords, acrossShapes, stripShapes } from './furniture.js';
import { mapShapes } from './key-map.js';

/** What the key sheet tells: pairs for the title block, sentences for the work. */
export interface KeyWords {
  readonly block: readonly (readonly [name: string, value: string])[];
  readonly steps: readonly string[];
}

const blockShapes = (
  pairs: KeyWords['block'],
  box: Box,
  lettering: Lettering,
): { readonly shapes: readonly Shape[]; readonly bottom: number } => {
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

/** Numbered sentences below each other from the top of a box, and where they end. */
export const stepShapes = (
  steps: readonly string[],
  box: Box,
  lettering: Lettering,
): { readonly shapes: readonly Shape[]; readonly bottom: number } => {
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
export const keySheet = (
  template: Template,
  grid: Grid,
  marks: readonly Mark[],
  words: KeyWords,
  strip: StripWords,
  lettering: Lettering,
): readonly Panel[] => {
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
  const map = mapShapes(template, grid, marks, { left, right, top, bottom: wordsTop + 3 }, lettering);
  return [
    {
      place: unchanged,
      clip: null,
      shapes: [
        ...map,
        line('note', { x: left, y: wordsTop }, { x: right, y: wordsTop }, pens.hair),
        ...block.shapes,
        ...steps.shapes,
        ...stripShapes(grid.frame.strip, strip, lettering),
        ...acrossShapes(grid.frame.window, strip.notice?.across ?? null, lettering),
      ],
    },
  ];
};
