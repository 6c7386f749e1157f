import { type Lettering, type Picture, type Shape, line, pens, text, visible } from '@fayplate/drawing';
import { unchanged } from './geometry/affine.js';
import { flow, panelsOf } from './packet/flow.js';
import { picturePiece } from './packet/picture.js';
import { type Piece, piece, style } from './packet/piece.js';
import { headingPiece } from './packet/text.js';
import { stockOf } from './paper/paper.js';
import type { PdfPage } from './pdf/page.js';
import { writePdf } from './pdf/write.js';
import { missingWords, recording } from './options.js';
import { fitText } from './sheet/frame.js';
import type { NotPrinted, PrintOptions } from './types.js';

/** One page to fill in at the bench: a drawing with numbered arrows, and a line to write on for each number. */
export interface FilledSheet {
  readonly of: string;
  readonly picture: Picture;
  readonly lines: readonly {
    readonly number: number;
    readonly reading: string;
    readonly how: string;
    readonly by: string | null;
    readonly unit: string;
  }[];
}

/** The measuring sheets as PDF bytes. */
export interface PrintedMeasuring {
  readonly ok: true;
  readonly bytes: Uint8Array;
  readonly pages: readonly { readonly page: number; readonly of: string; readonly numbers: readonly number[] }[];
  readonly paper: { readonly name: string };
  readonly warnings: readonly string[];
}

/** Height of a line to write on, mm: a pencil in a gloved hand. */
const ROW = 12.5;
/** Capitals, mm: numbers and readings are read at arm's length. */
const BIG = 4;
const READING = 3.4;
const HOW = 2.3;
/** Where the line to write on begins and how long it is, as shares of the width. */
const RULE = { from: 0.56, to: 0.92 } as const;
/** Least page on which the lines can be written on, mm. */
const LEAST_WIDTH = 140;

const rowPiece = (
  { number, reading, how, by, unit }: FilledSheet['lines'][number],
  width: number,
  lettering: Lettering,
): Piece => {
  const [from, to] = [RULE.from * width, RULE.to * width];
  const base = -ROW + 4;
  const wide = from - 18;
  const told = by === null ? how : `${how}, by ${by}`;
  const shapes: readonly Shape[] = [
    text('note', { x: 11, y: base }, String(number), { capital: BIG, weight: 'bold', anchor: 'end' }),
    text('note', { x: 15, y: base + 2 }, fitText(reading, wide, READING, 'bold', lettering), {
      capital: READING,
      weight: 'bold',
    }),
    text('note', { x: 15, y: base - 2.6 }, fitText(told, wide, HOW, 'regular', lettering), { capital: HOW }),
    ...(unit === ''
      ? [text('note', { x: from, y: base }, 'yes  /  no', { capital: READING })]
      : [
          text('note', { x: from - 4, y: base }, '=', { capital: READING, anchor: 'end' }),
          line('note', { x: from, y: base - 1 }, { x: to, y: base - 1 }, pens.narrow),
          text('note', { x: to + 2, y: base }, unit, { capital: READING }),
        ]),
  ];
  return piece(ROW, shapes);
};

/** Measuring sheets as one PDF, one page for each; roll and single fall back to A4, for they are to be written on. */
export const measuringPdf = async (
  sheets: readonly FilledSheet[],
  options: Pick<PrintOptions, 'paper' | 'date' | 'lettering'> & { readonly job: string },
): Promise<PrintedMeasuring | NotPrinted> => {
  if (sheets.length === 0) return { ok: false, faults: ['the job has nothing to measure: it names no feature yet'] };
  const asked = stockOf(options.paper);
  const stock = asked === null || asked.height === null || asked.width < LEAST_WIDTH ? stockOf('A4') : asked;
  if (stock === null || stock.height === null) return { ok: false, faults: ['no paper is known to lay the sheets on'] };
  const page = { width: stock.width, height: stock.height };
  const area = {
    width: page.width - style.margin.left - style.margin.right,
    height: page.height - style.margin.top - style.margin.bottom,
  };
  const { lettering, missing } = recording(options.lettering);
  const pages = sheets.map(({ picture, lines }, i): PdfPage => {
    const heading = headingPiece(picture.title, 0, area.width, lettering);
    const rows = lines.map((l) => rowPiece(l, area.width, lettering));
    const room = area.height - heading.height - rows.length * ROW - 2 * style.lead;
    const drawn = picturePiece({ ...picture, title: '' }, area.width, room, room, lettering);
    const [laid] = flow([heading, drawn, ...rows], area.height);
    const foot = `${visible(options.job)} · sheet ${i + 1} of ${sheets.length}`;
    const names = 'Measured by                                      on                          with';
    return {
      ...page,
      label: String(i + 1),
      correction: null,
      numberAt: null,
      panels: [
        ...(laid === undefined ? [] : panelsOf(laid, { x: style.margin.left, y: page.height - style.margin.top })),
        {
          place: unchanged,
          clip: null,
          shapes: [
            text('note', { x: style.margin.left, y: style.margin.bottom - 4 }, names, { capital: HOW }),
            text('note', { x: style.margin.left, y: style.margin.bottom - 11 }, foot, { capital: style.footer }),
          ],
        },
      ],
    };
  });
  const title = `${visible(options.job)}: measuring sheets`;
  const contents = sheets.map((s, k) => ({ title: visible(s.picture.title), page: k }));
  const bytes = await writePdf({ title, language: 'en-GB', date: options.date, pages, contents }, lettering);
  return {
    ok: true,
    bytes,
    paper: { name: stock.name },
    pages: sheets.map((s, k) => ({ page: k + 1, of: s.of, numbers: s.lines.map((l) => l.number) })),
    warnings: missingWords(missing),
  };
};
