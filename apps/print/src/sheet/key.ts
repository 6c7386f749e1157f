import { type Box, type Point, type Speech, say, sayAll } from '@fayplate/core';
import {
  type Field,
  type Lettering,
  type PrinterScale,
  type Shape,
  findRoom,
  line,
  pens,
  rectangle,
  text,
  wrapText,
} from '@fayplate/drawing';
import { unchanged } from '../geometry/affine.js';
import type { Stock } from '../paper/paper.js';
import type { Panel } from '../pdf/page.js';
import type { Remaining } from '../printer/profile.js';
import type { Template } from '../template/types.js';
import type { Grid } from '../tiles/grid.js';
import type { Mark } from '../tiles/marks.js';
import { type StripWords, acrossShapes, stripShapes } from './furniture.js';
import { mapShapes } from './key-map.js';
import { remainingWords, scaleWords } from './list.js';

interface KeyFacts {
  readonly job: string;
  readonly template: Template;
  readonly grid: Grid;
  readonly stock: Stock;
  readonly marks: readonly Mark[];
  readonly remaining: Remaining;
  readonly printer: PrinterScale | null;
  readonly date: Date | null;
  readonly speech: Speech;
}

const joinSteps = ({ grid, marks }: KeyFacts): readonly string[] =>
  grid.rows * grid.columns === 1
    ? []
    : [
        'Cut along the dashed lines, lay each sheet on the next so that the two halves of every mark ' +
          `(${marks[0]?.n ?? ''} to ${marks.at(-1)?.n ?? ''}) make one, and glue. No two joins have the same marks.`,
        'Measure the long rulers again once the sheets are glued.',
      ];

/** Holes that carry a ring, and why. */
const ringWords = ({ way }: Template): string =>
  way === null || way.byReadOut.length === 0
    ? ''
    : ` No cross stands in a ring (${sayAll(way.byReadOut)}): there a ` +
      'punch mark comes too far off, so place these by read-out.';

const workStep = (template: Template): string =>
  template.what === 'drill'
    ? 'Fix the paper to the plate, punch lightly at each bare centre, look through a glass, then punch ' +
      `home.${ringWords(template)}`
    : template.what === 'part'
      ? 'Cut out the circles and lay the paper on the part: every rim shows all round. Where one does not, measure ' +
        'that feature again.'
      : template.what === 'depths'
        ? 'Cut out the strips. Hold one beside the tool, its end at the point of a drill or the shoulder of another ' +
          'tool, and set the stop.'
        : 'Fix the paper to the gasket sheet, punch the holes first, then cut the bore, and the outline last.';

/** The key sheet's words: the title block, and what to do in the order in which it is done. */
export const keyWords = (f: KeyFacts): KeyWords => {
  const { width, height } = f.grid.frame.page;
  const date = f.date === null ? [] : [['Date', f.date.toISOString().slice(0, 10)] as const];
  return {
    block: [
      ['Job', f.job],
      ['Drawing', f.template.title],
      ...f.template.facts,
      [
        'Sheets',
        `${f.grid.rows} × ${f.grid.columns} of ${f.stock.name}, ` +
          `${width > height ? 'landscape' : 'portrait'} (rows × columns)`,
      ],
      ['Scale', scaleWords(f.printer)],
      ...date,
    ],
    steps: [
      "Print at 'actual size' or 100 %, one-sided, never 'fit to page'.",
      'Lay a steel rule along both rulers of every sheet. If one does not read true, stop: print the calibration ' +
        'sheet, measure it and keep a printer profile.',
      ...joinSteps(f),
      workStep(f.template),
      ...(f.template.way === null
        ? []
        : [
            'Paper and punch place a hole within ± ' +
              `${say(f.template.way.plusMinus, { ...f.speech, fraction: null }, f.speech.unit === 'in' ? 3 : 2)}, ` +
              'the print’s own share in it.',
          ]),
      ...(f.template.holes.length === 0 ? [] : [remainingWords(f.remaining, f.printer, f.speech)]),
    ],
  };
};

/** What the key sheet tells: pairs for the title block, sentences for the work. */
interface KeyWords {
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
const stepShapes = (
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

/** Widths tried, mm, the widest first: the fewer lines, the easier it is read. */
const WIDTHS = [120, 100, 84, 70, 58] as const;

/** About the words within the frame, mm. */
const EDGE = 2;
const HEAD = 4.4;

/**
 * The words of the key in a frame on the sheet itself, where nothing else lies; null where there is no room for them.
 */
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
