import type { Box } from '@fayplate/core';
import { type Lettering, type Shape, line, pens, rectangle, text } from '@fayplate/drawing';
import { fitText } from './fit.js';
import { type Frame, RULER_BAND } from './frame.js';
import { type RulerLine, ruler } from './ruler.js';

/** What the strip at the foot of every sheet says. */
export interface StripWords {
  readonly job: string;
  readonly title: string;
  /** `Sheet 2,1 of 3 × 2`, `Key sheet`. */
  readonly sheet: string;
  /** How the printer's scale was dealt with. */
  readonly scale: string;
  /** What must not be forgotten before the paper is used. */
  readonly warning: string;
}

const GAP = 4;

const row = (strip: Box, y: number, left: string, right: string, capital: number, weight: 'regular' | 'bold', lettering: Lettering): readonly Shape[] => {
  const room = strip.right - strip.left;
  const end = fitText(right, room * 0.45, capital, weight, lettering);
  const start = fitText(left, room - lettering.width(end, capital, weight) - GAP, capital, weight, lettering);
  return [
    text('note', { x: strip.left, y }, start, { capital, weight }),
    text('note', { x: strip.right, y }, end, { capital, weight, anchor: 'end' }),
  ];
};

/** Three lines under a rule: job and sheet in bold; what it is; scale and the warning. */
export const stripShapes = (strip: Box, words: StripWords, lettering: Lettering): readonly Shape[] => [
  line('note', { x: strip.left, y: strip.top - 0.6 }, { x: strip.right, y: strip.top - 0.6 }, pens.hair),
  ...row(strip, strip.top - 3.9, words.job, words.sheet, 2.4, 'bold', lettering),
  ...row(strip, strip.top - 7.2, words.title, words.warning, 1.9, 'regular', lettering),
  ...row(strip, strip.top - 10.2, words.scale, 'Print at 100 %, never fit to page', 1.9, 'regular', lettering),
];

/** Rulers along the bottom and the left; each stops short of a join, so that it stays whole when the sheet is cut. */
export const edgeRulers = (frame: Frame, shorter: { readonly right: number; readonly top: number }): { readonly shapes: readonly Shape[]; readonly lines: readonly RulerLine[] } => {
  const { window } = frame;
  const across = ruler({ x: window.left, y: window.bottom - RULER_BAND / 2 }, window.right - window.left - shorter.right, 0);
  const up = ruler({ x: window.left - RULER_BAND / 2, y: window.bottom }, window.top - window.bottom - shorter.top, Math.PI / 2);
  return { shapes: [...across.shapes, ...up.shapes], lines: [...across.lines, ...up.lines] };
};

export const windowFrame = (window: Box): Shape => rectangle('note', window, { ...pens.hair, grey: 0.55 });
