import type { Box, Point } from '@fayplate/core';
import { type Field, type Lettering, type Shape, findRoom, pens, rectangle, text } from '@fayplate/drawing';
import { type KeyWords, stepShapes } from './key.js';

/** Widths tried, mm, the widest first: the fewer lines, the easier it is read. */
const WIDTHS = [120, 100, 84, 70, 58] as const;

/** About the words within the frame, mm. */
const EDGE = 2;
const HEAD = 4.4;

/** The words of the key in a frame on the sheet itself, where nothing else lies; null where there is no room for them. */
export const keyInset = (
  steps: KeyWords['steps'],
  near: Point,
  room: Field,
  within: Box,
  lettering: Lettering,
): readonly Shape[] | null => {
  for (const width of WIDTHS) {
    const inner = { left: 0, right: width - 2 * EDGE, top: 0, bottom: 0 };
    const height = HEAD - stepShapes(steps, inner, lettering).bottom;
    const box = findRoom({ width, height }, near, room, within);
    if (box === null) continue;
    const left = box.left + EDGE;
    const words = { left, right: box.right - EDGE, top: box.top - HEAD, bottom: box.bottom };
    return [
      rectangle('note', box, pens.hair),
      text('note', { x: left, y: box.top - HEAD }, 'How to use this sheet', { capital: 2.4, weight: 'bold' }),
      ...stepShapes(steps, words, lettering).shapes,
    ];
  }
  return null;
};
