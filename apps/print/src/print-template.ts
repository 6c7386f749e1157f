import type { Point } from '@fayplate/core';
import { field, visible } from '@fayplate/drawing';
import { type Affine, carry, chain } from './geometry/affine.js';
import { readOptions } from './options.js';
import { LONGEST_PAGE, type Stock } from './paper/paper.js';
import type { PdfPage } from './pdf/page.js';
import { writePdf } from './pdf/write.js';
import { correctionFor } from './printer/profile.js';
import { remainingError } from './printer/remaining.js';
import { missingWords, recording } from './record.js';
import { type KeyWords, keySheet } from './sheet/key.js';
import { heightOf, pageFor, widthOf } from './sheet/frame.js';
import type { StripWords } from './sheet/furniture.js';
import { sheetName } from './sheet/join-lines.js';
import { type RulerLine, longRuler } from './sheet/ruler.js';
import { boxed, tileSheet } from './sheet/tile.js';
import { remainingWords, scaleWords } from './sheet/words.js';
import { dress } from './template/dress.js';
import type { Template } from './template/types.js';
import { type Grid, LEAST_CLEARANCE, planGrid, windowOf } from './tiles/grid.js';
import { type Mark, markGroup, markObstacles, marksOn, placeMarks, stripObstacles } from './tiles/marks.js';
import type { NotPrinted, PageJson, PrintJson, PrintOptions, Printed } from './types.js';

const MOST_SHEETS = 600;
/** Bare paper about the drawing on a sheet made to measure, mm. */
const ROOM = 12;

const madeToMeasure = (template: Template, margin: number): Stock => {
  const page = pageFor({ width: widthOf(template.box) + 2 * ROOM, height: heightOf(template.box) + 2 * ROOM }, margin);
  // Never so small that the title strip cannot be read.
  const width = Math.max(150, Math.ceil(page.width));
  const height = Math.max(120, Math.ceil(page.height));
  return { name: `${width} × ${height} mm`, width, height };
};

const pair = (p: Point): readonly [number, number] => [p.x, p.y];

const rulerJson = (lines: readonly RulerLine[], correction: Affine) =>
  lines.map((r) => ({ from: pair(carry(correction, r.from)), to: pair(carry(correction, r.to)), length: r.length }));

const dateWords = (date: Date | null): string | null => (date === null ? null : date.toISOString().slice(0, 10));

const longRulersOf = (grid: Grid) => {
  const { covered, longRulers: at } = grid;
  const words = (mm: number): string => `${mm} mm between the end marks: measure again once the sheets are glued`;
  const room = (from: number, to: number): number => Math.floor((to - from) / 10) * 10;
  return [
    ...(at.across === null
      ? []
      : [longRuler({ x: covered.left + 12, y: at.across }, { x: covered.left + 12 + room(covered.left + 12, covered.right - 6), y: at.across }, words(room(covered.left + 12, covered.right - 6)))]),
    ...(at.up === null
      ? []
      : [longRuler({ x: at.up, y: covered.bottom + 12 }, { x: at.up, y: covered.bottom + 12 + room(covered.bottom + 12, covered.top - 6) }, words(room(covered.bottom + 12, covered.top - 6)))]),
  ];
};

/**
 * A template on paper: key sheet first, then every sheet row by row, as PDF bytes, with the JSON that says where everything
 * lies and warnings for a person. Refuses, with advice, what cannot be printed true.
 */
export const printTemplate = async (job: string, template: Template, options: PrintOptions): Promise<Printed | NotPrinted> => {
  const read = readOptions(options);
  if (!read.ok) return read;
  const { printer, speech, margin } = options;
  const { lettering, missing } = recording(options.lettering);
  const stock = read.stock ?? madeToMeasure(template, margin);
  const single = read.stock === null;
  if (Math.max(stock.width, stock.height ?? 0) > LONGEST_PAGE)
    return { ok: false, faults: [`one sheet of ${stock.name} is longer than a PDF page can be (${LONGEST_PAGE} mm): take a paper size and join the sheets`] };
  const grid = planGrid(template.box, template.holes.map((h) => h.at), { stock, margin, overlap: options.overlap, orientation: single ? 'portrait' : options.orientation });
  if (grid === null) return { ok: false, faults: [`${stock.name} with margins of ${margin} mm leaves no room for the drawing: take larger paper`] };
  const sheets = grid.rows * grid.columns;
  if (sheets > MOST_SHEETS)
    return { ok: false, faults: [`the drawing would take ${sheets} sheets of ${stock.name}: take larger paper, a roll, or single for a plotter`] };
  if (options.sheet !== null) {
    const [r, c] = options.sheet;
    if (!(Number.isInteger(r) && Number.isInteger(c) && r >= 1 && c >= 1 && r <= grid.rows && c <= grid.columns))
      return { ok: false, faults: [`there is no sheet ${r},${c}: sheets run from 1,1 to ${grid.rows},${grid.columns} (row, column)`] };
  }

  const { page } = grid.frame;
  const correction: Affine = printer === null ? [1, 0, 0, 1, 0, 0] : correctionFor(printer, page);
  const longs = longRulersOf(grid);
  const longBoxes = boxed(longs.flatMap((l) => l.shapes), lettering).map(({ box }) => ({ kind: 'box', box }) as const);
  const marks = placeMarks(grid, template.holes, field([...template.obstacles, ...longBoxes]));
  const dressed = dress(template, lettering, grid.covered, { drawn: [...markObstacles(grid, marks), ...longBoxes], strips: stripObstacles(grid) });
  const drawing = {
    taken: dressed.taken,
    shapes: boxed([...template.shapes, ...dressed.shapes, ...marks.map((m) => markGroup(m, grid.overlap)), ...longs.flatMap((l) => l.shapes)], lettering),
  };
  const remaining = remainingError(
    template.holes,
    printer,
    { wide: widthOf(grid.frame.window), high: heightOf(grid.frame.window) },
    { across: grid.columns - 1, up: grid.rows - 1 },
  );

  const strip = (sheet: string): StripWords => ({ job, title: template.title, sheet, scale: scaleWords(printer) });
  const pages: PdfPage[] = [];
  const json: PageJson[] = [];
  const add = (label: string, panels: PdfPage['panels'], more: Omit<PageJson, 'page' | 'width' | 'height'>): void => {
    pages.push({ ...page, label, correction: printer === null ? null : correction, panels });
    json.push({ page: pages.length, width: page.width, height: page.height, ...more });
  };

  if (options.sheet === null && !single) {
    const words: KeyWords = {
      block: [
        ['Job', job],
        ['Drawing', template.title],
        ['Sheets', `${grid.rows} × ${grid.columns} of ${stock.name}, ${page.width > page.height ? 'landscape' : 'portrait'}`],
        ['Printer', scaleWords(printer)],
        ...(dateWords(options.date) === null ? [] : [['Date', dateWords(options.date) ?? ''] as const]),
      ],
      steps: keySteps(grid, marks, remainingWords(remaining, printer, speech)),
    };
    add('key', keySheet(template, grid, marks, words, strip('Key sheet'), lettering), { kind: 'key' });
  }
  for (let row = 0; row < grid.rows; row++) {
    for (let column = 0; column < grid.columns; column++) {
      if (options.sheet !== null && (options.sheet[0] !== row + 1 || options.sheet[1] !== column + 1)) continue;
      const name = sheetName(row, column);
      const words = strip(sheets === 1 ? 'One sheet' : `Sheet ${name} of ${grid.rows} × ${grid.columns}`);
      const sheet = tileSheet(grid, { row, column }, drawing, words, lettering);
      const toPage = chain(sheet.place, correction);
      const w = windowOf(grid, row, column);
      const inside = (p: Point): boolean => p.x >= w.left && p.x <= w.right && p.y >= w.bottom && p.y <= w.top;
      const [first] = template.parts;
      add(name, sheet.panels, {
        kind: 'tile',
        row,
        column,
        ...(first === undefined ? {} : { to_page: chain(first.fromPlate, toPage) }),
        ...(template.parts.length > 1 ? { parts: template.parts.map((p) => ({ name: p.name, to_page: chain(p.fromPlate, toPage) })) } : {}),
        holes: template.holes.filter((h) => inside(h.at)).map((h) => h.id),
        rulers: rulerJson(sheet.rulers, correction),
        marks: marksOn(grid, marks, row, column).map((m) => ({ id: m.id, at: pair(carry(toPage, m.at)) })),
      });
    }
  }
  const title = visible(`${job}: ${template.title}`);
  const bytes = await writePdf({ title, language: 'en-GB', date: options.date, pages, contents: [] }, lettering);
  const body: PrintJson = {
    file: options.file,
    paper: { name: stock.name, ...page },
    scale: { wide: printer?.wide ?? 1, high: printer?.high ?? 1, skew: ((printer?.skew ?? 0) * 180) / Math.PI },
    printer: printer?.name ?? null,
    what: template.what,
    side: template.side,
    grid: { rows: grid.rows, columns: grid.columns, overlap: grid.overlap, clearance: Number.isFinite(grid.clearance) ? grid.clearance : null },
    still_off: { plus_minus: remaining.off, hole: remaining.hole },
    pages: json,
  };
  const warnings = [
    ...read.warnings,
    ...(grid.clearance < LEAST_CLEARANCE ? [`a hole centre lies ${grid.clearance.toFixed(2)} mm from a join: the holes stand too close for any grid of ${stock.name}; take larger paper`] : []),
    ...(sheets > 60 ? [`${sheets} sheets: larger paper or a roll would be quicker and truer`] : []),
    ...(dressed.unplaced.length > 0 ? [`no room beside ${dressed.unplaced.slice(0, 12).join(', ')}${dressed.unplaced.length > 12 ? ' and more' : ''}: named on the key sheet only`] : []),
    ...missingWords(missing),
  ];
  return { ok: true, bytes, json: body, warnings };
};

const keySteps = (grid: Grid, marks: readonly Mark[], remaining: string): readonly string[] => {
  const joined = grid.rows * grid.columns > 1;
  return [
    "Print at 'actual size' or 100 %, one-sided, never 'fit to page'.",
    'Lay a steel rule along both rulers of every sheet. If one does not read true, stop: measure them and keep a printer profile.',
    ...(joined
      ? [
          `Cut along the dashed lines, lay each sheet on the next so that the two halves of every mark (${marks[0]?.id ?? ''} to ${marks.at(-1)?.id ?? ''}) make one, and glue. No two joins have the same marks.`,
          'Measure the long rulers again once the sheets are glued.',
        ]
      : []),
    'Fix the paper to the plate, punch lightly at each bare centre, look through a glass, then punch home.',
    remaining,
  ];
};
