import { type Point, distance } from '@fayplate/core';
import { type Lettering, type Shape, line, pens, rectangle, text, wrapText } from '@fayplate/drawing';
import { unchanged } from '../geometry/affine.js';
import { stockOf } from '../paper/paper.js';
import type { Panel } from '../pdf/page.js';
import { writePdf } from '../pdf/write.js';
import { missingWords, recording } from '../options.js';
import type { NotPrinted, PrintJson, PrintOptions, Printed } from '../types.js';
import { type Frame, LEAST_WINDOW, frameOf, heightOf, widthOf } from './frame.js';
import { type StripWords, edgeRulers, stripShapes } from './furniture.js';
import type { RulerLine } from './ruler.js';

interface CalibrationSheet {
  readonly panels: readonly Panel[];
  /** Edge rulers (mm and inch, across and up), then the rising and the falling diagonal. */
  readonly rulers: readonly RulerLine[];
  /** Of the rectangle whose diagonals are drawn, mm. */
  readonly rectangle: { readonly width: number; readonly height: number };
}

const INSET = 4;

/** An open corner mark: the lines stop short of the corner, so that a rule's edge can be laid on the point itself. */
const cornerMark = (at: Point, inward: Point): readonly Shape[] => {
  const dot = 0.25;
  const arm = (d: Point): Shape =>
    line('mark', { x: at.x + d.x * 0.6, y: at.y + d.y * 0.6 }, { x: at.x + d.x * 4, y: at.y + d.y * 4 }, pens.narrow);
  return [
    arm({ x: inward.x, y: 0 }),
    arm({ x: 0, y: inward.y }),
    arm({ x: -inward.x, y: 0 }),
    arm({ x: 0, y: -inward.y }),
    line('mark', { x: at.x - dot, y: at.y }, { x: at.x + dot, y: at.y }, pens.hair),
    line('mark', { x: at.x, y: at.y - dot }, { x: at.x, y: at.y + dot }, pens.hair),
  ];
};

/**
 * The sheet that a printer is measured by: rulers along both edges and the two diagonals of the largest rectangle of
 * whole tens.
 */
const calibrationSheet = (frame: Frame, words: StripWords, lettering: Lettering): CalibrationSheet => {
  const { window } = frame;
  const edges = edgeRulers(frame, { right: 0, top: 0 });
  const width = Math.floor((window.right - window.left - 2 * INSET - 8) / 10) * 10;
  const height = Math.floor((window.top - window.bottom - 2 * INSET - 8) / 10) * 10;
  const left = (window.left + window.right - width) / 2;
  const bottom = (window.bottom + window.top - height) / 2;
  const a = { x: left, y: bottom };
  const b = { x: left + width, y: bottom };
  const c = { x: left + width, y: bottom + height };
  const d = { x: left, y: bottom + height };
  const length = distance(a, c);
  const across = edges.lines[0]?.length ?? 0;
  const up = edges.lines[2]?.length ?? 0;
  const steps = [
    'Print this sheet at 100 %, one-sided, on the paper that you will use. Let it lie for some minutes: paper ' +
      'grows and shrinks.',
    'Measure with a good steel rule, or with jaws, as finely as you can read; say how finely (the ±).',
    `Across: the ruler at the foot, nominal ${across} mm.  It measures ________ mm`,
    `Up: the ruler at the left, nominal ${up} mm.  It measures ________ mm`,
    `Rising diagonal, corner 1 to corner 3, nominal ${length.toFixed(2)} mm.  It measures ________ mm`,
    `Falling diagonal, corner 4 to corner 2, nominal ${length.toFixed(2)} mm.  It measures ________ mm`,
    'Give the four lengths to the printer command, with the ±, the day and the paper. More than 3 % off means that ' +
      'something scaled the page: look for it first.',
  ];
  const room = Math.min(width - 24, 130);
  const lines = steps.flatMap((s, i) =>
    wrapText(s, room - 6, 2.2, 'regular', lettering).map((l, j) => ({
      words: l,
      number: j === 0 ? String(i + 1) : null,
    })),
  );
  const lead = 5;
  const middle = { x: left + width / 2, y: bottom + height / 2 };
  const top = middle.y + (lines.length * lead) / 2;
  const paper = {
    left: middle.x - room / 2 - 4,
    right: middle.x + room / 2 + 4,
    top: top + 4,
    bottom: top - lines.length * lead - 2,
  };
  const corners: readonly (readonly [Point, string, Point])[] = [
    [a, '1', { x: 1, y: 1 }],
    [b, '2', { x: -1, y: 1 }],
    [c, '3', { x: -1, y: -1 }],
    [d, '4', { x: 1, y: -1 }],
  ];
  const shapes: readonly Shape[] = [
    line('note', a, c, { ...pens.hair, grey: 0.5 }),
    line('note', d, b, { ...pens.hair, grey: 0.5 }),
    rectangle('note', paper, null, 1),
    ...corners.flatMap(([at, name, inward]) => [
      ...cornerMark(at, inward),
      text('note', { x: at.x + inward.x * 6, y: at.y + inward.y * 3 - 1.3 }, name, {
        capital: 2.6,
        weight: 'bold',
        anchor: inward.x > 0 ? 'start' : 'end',
      }),
    ]),
    ...lines.flatMap((l, i) => [
      ...(l.number === null
        ? []
        : [
            text('note', { x: middle.x - room / 2, y: top - (i + 1) * lead + 1.4 }, l.number, {
              capital: 2.2,
              weight: 'bold',
            }),
          ]),
      text('note', { x: middle.x - room / 2 + 6, y: top - (i + 1) * lead + 1.4 }, l.words, { capital: 2.2 }),
    ]),
    ...edges.shapes,
    ...stripShapes(frame.strip, words, lettering),
  ];
  return {
    panels: [{ place: unchanged, clip: null, shapes }],
    rulers: [...edges.lines, { from: a, to: c, length }, { from: d, to: b, length }],
    rectangle: { width, height },
  };
};

/** What the calibration sheet is printed with. */
export type CalibrationOptions = Pick<PrintOptions, 'paper' | 'margin' | 'orientation' | 'date' | 'lettering' | 'file'>;

/** The sheet by which a printer's scale is measured, never corrected; as PDF bytes and JSON. */
export const printCalibration = async (printer: string, options: CalibrationOptions): Promise<Printed | NotPrinted> => {
  const stock = stockOf(options.paper);
  if (stock === null)
    return {
      ok: false,
      faults: [`no paper '${options.paper.slice(0, 40)}' is known: write A4, Letter, ANSI D or 210 x 297 mm`],
    };
  if (!(options.margin >= 0)) return { ok: false, faults: ['the margin must be a length of zero or more'] };
  const height = stock.height ?? stock.width;
  const page =
    options.orientation === 'landscape' ? { width: height, height: stock.width } : { width: stock.width, height };
  const frame = frameOf(page, options.margin);
  // The instructions need a hand's breadth within the rectangle.
  if (widthOf(frame.window) < 2 * LEAST_WINDOW || heightOf(frame.window) < 2 * LEAST_WINDOW)
    return {
      ok: false,
      faults: [
        `${stock.name} with margins of ${options.margin} mm is too small to measure a printer by: take the paper ` +
          'that you will print on, or smaller margins',
      ],
    };
  const { lettering, missing } = recording(options.lettering);
  const words = {
    job: `Printer ${printer}`,
    title: 'Calibration sheet · rulers and diagonals',
    sheet: 'Calibration',
    scale: 'True scale, not corrected for any printer',
    warning: 'One sheet for each kind of paper',
  };
  const sheet = calibrationSheet(frame, words, lettering);
  const bytes = await writePdf(
    {
      title: 'Calibration sheet',
      language: 'en-GB',
      date: options.date,
      contents: [],
      pages: [{ ...page, label: '1', correction: null, numberAt: null, panels: sheet.panels }],
    },
    lettering,
  );
  const json: PrintJson = {
    file: options.file,
    paper: { name: stock.name, ...page },
    scale: { wide: 1, high: 1, skew: 0 },
    printer,
    what: 'calibration',
    side: null,
    grid: null,
    still_off: null,
    pages: [
      {
        page: 1,
        kind: 'calibration',
        ...page,
        rectangle: sheet.rectangle,
        rulers: sheet.rulers.map((r) => ({ from: [r.from.x, r.from.y], to: [r.to.x, r.to.y], length: r.length })),
      },
    ],
  };
  return { ok: true, bytes, json, warnings: missingWords(missing) };
};
