import { type Box, type Point, type Speech, say } from '@fayplate/core';
import { type Lettering, type PrinterScale, field, growBox } from '@fayplate/drawing';
import { type Affine, carry, chain, unchanged } from './geometry/affine.js';
import { readOptions } from './options.js';
import type { Stock } from './paper/paper.js';
import type { Panel, PdfPage } from './pdf/page.js';
import { type Remaining, correctionFor, remainingError } from './printer/profile.js';
import { heightOf, widthOf } from './sheet/frame.js';
import { keyInset } from './sheet/key.js';
import { type StripWords, stripMiddle } from './sheet/furniture.js';
import { sheetName } from './sheet/join-lines.js';
import { keySheet, keyWords } from './sheet/key.js';
import { listSheets, scaleBrief } from './sheet/list.js';
import type { RulerLine } from './sheet/ruler.js';
import { boxed, tileSheet } from './sheet/tile.js';
import { type Dressed, dress } from './template/dress.js';
import type { Template } from './template/types.js';
import { type Grid, LEAST_CLEARANCE, windowOf } from './tiles/grid.js';
import { madeToMeasure, planSheets } from './tiles/plan.js';
import { longRulersOf } from './tiles/long-rulers.js';
import { markGroup, markObstacles, marksOn, placeMarks, stripObstacles } from './tiles/marks.js';
import type { NotPrinted, PageJson, PrintOptions } from './types.js';

/**
 * Bare paper about the drawing on a sheet made to measure, mm: enough as a rule, and enough for lettering beside the
 * outline.
 */
const ROOMS = [12, 45] as const;

/** A template on its sheets, before any file is written. */
export interface LaidTemplate {
  readonly ok: true;
  readonly pages: readonly PdfPage[];
  readonly json: readonly PageJson[];
  readonly grid: Grid;
  readonly stock: Stock;
  /** The profile in the axes of these pages. */
  readonly printer: PrinterScale | null;
  readonly remaining: Remaining;
  /** Holes whose words did not all fit beside them. */
  readonly shortened: number;
  readonly warnings: readonly string[];
}

const pair = (p: Point): readonly [number, number] => [p.x, p.y];

const rulerJson = (lines: readonly RulerLine[], correction: Affine) =>
  lines.map((r) => ({ from: pair(carry(correction, r.from)), to: pair(carry(correction, r.to)), length: r.length }));

const some = (ids: readonly string[]): string => `${ids.slice(0, 12).join(', ')}${ids.length > 12 ? ' and more' : ''}`;

const warningsOf = (grid: Grid, stock: Stock, dressed: Dressed, speech: Speech): readonly string[] => {
  const sheets = grid.rows * grid.columns;
  return [
    ...(grid.clearance < LEAST_CLEARANCE
      ? [
          'a hole centre lies ' +
            `${say(grid.clearance, { ...speech, fraction: null }, speech.unit === 'in' ? 3 : 2)} from a join: ` +
            `the holes stand too close for any grid of ${stock.name}; take larger paper`,
        ]
      : []),
    ...(sheets > 60 ? [`${sheets} sheets: larger paper or a roll would be quicker and more accurate`] : []),
    ...(dressed.unplaced.length > 0
      ? [`no room for lettering beside ${some(dressed.unplaced)}: see the list of holes`]
      : []),
  ];
};

/** Where the key is looked for first: the lower left corner, under the drawing. */
const cornerOf = ({ left, bottom }: Box): Point => ({ x: left, y: bottom });

/**
 * Key sheet where sheets are joined, list of holes where the drawing has no room for all its words, then every sheet
 * row by row.
 */
export const layTemplate = (
  job: string,
  template: Template,
  options: PrintOptions,
  lettering: Lettering,
): LaidTemplate | NotPrinted => {
  const read = readOptions(options);
  if (!read.ok) return read;
  if (read.stock !== null) return layOn(job, template, options, lettering, read.stock, read.warnings);
  const [first, second] = ROOMS.map(
    (room) => () =>
      layOn(job, template, options, lettering, madeToMeasure(template, options.margin, room), read.warnings),
  );
  const near = first?.() ?? { ok: false, faults: [] };
  return near.ok && near.shortened > 0 ? (second?.() ?? near) : near;
};

const layOn = (
  job: string,
  template: Template,
  options: PrintOptions,
  lettering: Lettering,
  stock: Stock,
  given: readonly string[],
): LaidTemplate | NotPrinted => {
  const single = /^single$/i.test(options.paper.trim());
  const plan = planSheets(template, options, stock, single);
  if (typeof plan === 'string') return { ok: false, faults: [plan] };
  const { grid, printer } = plan;
  const { page } = grid.frame;
  const sheets = grid.rows * grid.columns;
  const correction: Affine = printer === null ? unchanged : correctionFor(printer, page);

  const longs = longRulersOf(grid).flatMap((l) => l.shapes);
  const longBoxes = boxed(longs, lettering).map(({ box }) => ({ kind: 'box', box }) as const);
  const marks = placeMarks(grid, template.holes, field([...template.obstacles, ...longBoxes]));
  const dressed = dress(template, lettering, growBox(grid.covered, -1.5), {
    drawn: [...markObstacles(grid, marks), ...longBoxes],
    strips: stripObstacles(grid),
  });
  const rulers = { wide: widthOf(grid.frame.window), high: heightOf(grid.frame.window) };
  const remaining = remainingError(template.holes, printer, rulers, { across: grid.columns - 1, up: grid.rows - 1 });
  // A plotter's one long sheet says all itself; joined sheets have the instructions before them, one sheet has them on
  // it where there is room.
  const explained = options.sheet === null && !single && !(stock.height === null && sheets === 1);
  const { date, speech } = options;
  const words = keyWords({ job, template, grid, stock, marks, remaining, printer, date, speech });
  const inset =
    explained && sheets === 1
      ? (keyInset(words.steps, cornerOf(grid.covered), dressed.taken, growBox(grid.covered, -1.5), lettering) ?? [])
      : [];
  const drawing = {
    taken: dressed.taken,
    marks,
    shapes: boxed(
      [...template.shapes, ...dressed.shapes, ...inset, ...marks.map((m) => markGroup(m, grid.overlap)), ...longs],
      lettering,
    ),
  };
  const pages: PdfPage[] = [];
  const json: PageJson[] = [];
  const strip = (sheet: string): StripWords => ({
    job,
    title: template.title,
    sheet,
    scale: scaleBrief(printer),
    warning: `Check the ruler before you ${template.what === 'drill' ? 'punch' : 'cut'}`,
    ...(options.notice === undefined ? {} : { notice: options.notice }),
  });
  const add = (label: string, panels: readonly Panel[], more: Omit<PageJson, 'page' | 'width' | 'height'>): void => {
    pages.push({
      ...page,
      label,
      correction: printer === null ? null : correction,
      numberAt: stripMiddle(grid.frame.strip),
      panels,
    });
    json.push({ page: pages.length, width: page.width, height: page.height, ...more });
  };

  if (explained && sheets > 1)
    add('key', keySheet(template, grid, marks, words, strip('Key sheet'), lettering), { kind: 'key' });
  if (explained && dressed.shortened.length > 0)
    for (const [i, panels] of listSheets(template.list, grid.frame, (n) => strip(n), lettering).entries())
      add(`list ${i + 1}`, panels, { kind: 'list' });
  for (let row = 0; row < grid.rows; row++) {
    for (let column = 0; column < grid.columns; column++) {
      if (options.sheet !== null && (options.sheet[0] !== row + 1 || options.sheet[1] !== column + 1)) continue;
      const name = sheetName(row, column);
      const said = strip(sheets === 1 ? 'One sheet' : `Sheet ${name} of ${grid.rows} × ${grid.columns}`);
      const sheet = tileSheet(grid, { row, column }, drawing, said, lettering);
      add(name, sheet.panels, {
        kind: 'tile',
        row,
        column,
        ...placesOn(template, grid, row, column, chain(sheet.place, correction)),
        rulers: rulerJson(sheet.rulers, correction),
        marks: marksOn(grid, marks, row, column).map((m) => ({
          id: m.id,
          at: pair(carry(chain(sheet.place, correction), m.at)),
        })),
      });
    }
  }
  return {
    ok: true,
    pages,
    json,
    grid,
    stock,
    printer,
    remaining,
    shortened: dressed.shortened.length,
    warnings: [...given, ...plan.warnings, ...warningsOf(grid, stock, dressed, speech)],
  };
};

const placesOn = (
  template: Template,
  grid: Grid,
  row: number,
  column: number,
  toPage: Affine,
): Pick<PageJson, 'to_page' | 'parts' | 'holes'> => {
  const w = windowOf(grid, row, column);
  const inside = (p: Point): boolean => p.x >= w.left && p.x <= w.right && p.y >= w.bottom && p.y <= w.top;
  const parts = template.parts.map((p) => ({ name: p.name, to_page: chain(p.fromPlate, toPage) }));
  const [first] = parts;
  return {
    ...(first === undefined ? {} : { to_page: first.to_page }),
    ...(parts.length > 1 ? { parts } : {}),
    holes: [...new Set(template.holes.filter((h) => inside(h.at)).map((h) => h.id))],
  };
};
