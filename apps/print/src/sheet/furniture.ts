import type { Box, Point } from '@fayplate/core';
import { type Lettering, type Shape, type Weight, line, pens, rectangle, text } from '@fayplate/drawing';
import { type Frame, RULER_BAND, fitText } from './frame.js';
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
  /** What is said of the job: the verdict, and what is not settled. */
  readonly notice?: { readonly line: string; readonly across: string | null };
}

const GAP = 4;

/** Half of the room kept bare in the middle of the first line, for the number of a packet's page. */
const KEPT = 10;
const FIRST = 3.9;

/** Where that number goes. */
export const stripMiddle = (strip: Box): Point => ({ x: (strip.left + strip.right) / 2, y: strip.top - FIRST });

interface Row {
  readonly y: number;
  readonly left: string;
  readonly right: string;
  readonly capital: number;
  readonly weight: Weight;
  /** Most that the right and the left may take together, mm. */
  readonly shares: readonly [left: number, right: number];
}

const rowShapes = (
  strip: Box,
  { y, left, right, capital, weight, shares }: Row,
  lettering: Lettering,
): readonly Shape[] => {
  const end = fitText(right, shares[1], capital, weight, lettering);
  const room = Math.max(shares[0], strip.right - strip.left - lettering.width(end, capital, weight) - GAP);
  const start = fitText(left, weight === 'bold' ? shares[0] : room, capital, weight, lettering);
  return [
    text('note', { x: strip.left, y }, start, { capital, weight }),
    text('note', { x: strip.right, y }, end, { capital, weight, anchor: 'end' }),
  ];
};

const rowsOf = (strip: Box, words: StripWords): readonly Row[] => {
  const width = strip.right - strip.left;
  const half = width / 2 - KEPT;
  const small = { capital: 1.9, weight: 'regular', shares: [width * 0.5, width * 0.45] } as const;
  return [
    { y: strip.top - FIRST, left: words.job, right: words.sheet, capital: 2.4, weight: 'bold', shares: [half, half] },
    { y: strip.top - 7.2, left: words.title, right: words.warning, ...small },
    {
      y: strip.top - 10.2,
      left: words.notice === undefined ? words.scale : (words.notice.across ?? words.notice.line),
      right:
        words.notice === undefined ? 'Print at 100 %, never fit to page' : `${words.scale} · 100 %, never fit to page`,
      ...small,
    },
  ];
};

/** Three lines under a rule: job and sheet in bold; what it is; scale and the warning. */
export const stripShapes = (strip: Box, words: StripWords, lettering: Lettering): readonly Shape[] => [
  line('note', { x: strip.left, y: strip.top - 0.6 }, { x: strip.right, y: strip.top - 0.6 }, pens.hair),
  ...rowsOf(strip, words).flatMap((r) => rowShapes(strip, r, lettering)),
];

/** Capital of the words across a sheet, mm. */
const ACROSS = 9;

/**
 * What is not settled, large and pale across the sheet, so that no one drills by it unwarned; nothing where all is
 * settled.
 */
export const acrossShapes = (window: Box, across: string | null, lettering: Lettering): readonly Shape[] => {
  if (across === null) return [];
  const [width, height] = [window.right - window.left, window.top - window.bottom];
  const length = 0.85 * Math.hypot(width, height);
  const capital = Math.min(ACROSS, (ACROSS * length) / Math.max(1, lettering.width(across, ACROSS, 'bold')));
  const at = { x: (window.left + window.right) / 2, y: (window.bottom + window.top) / 2 };
  return [
    text('note', at, across, {
      capital,
      weight: 'bold',
      anchor: 'middle',
      turn: Math.atan2(height, width),
      grey: 0.75,
    }),
  ];
};

/** Rulers along the bottom and the left; each stops short of a join, so that it stays whole when the sheet is cut. */
export const edgeRulers = (
  frame: Frame,
  shorter: { readonly right: number; readonly top: number },
): { readonly shapes: readonly Shape[]; readonly lines: readonly RulerLine[] } => {
  const { window } = frame;
  const across = ruler(
    { x: window.left, y: window.bottom - RULER_BAND / 2 },
    window.right - window.left - shorter.right,
    0,
  );
  const up = ruler(
    { x: window.left - RULER_BAND / 2, y: window.bottom },
    window.top - window.bottom - shorter.top,
    Math.PI / 2,
  );
  return { shapes: [...across.shapes, ...up.shapes], lines: [...across.lines, ...up.lines] };
};

export const windowFrame = (window: Box): Shape => rectangle('note', window, { ...pens.hair, grey: 0.55 });
