import type { PrinterScale } from '@fayplate/drawing';
import { sayTyped } from '@fayplate/core';
import { LONGEST_PAGE, type Stock } from '../paper/paper.js';
import { laidAcross, pushedOut } from '../printer/profile.js';
import { heightOf, pageFor, widthOf } from '../sheet/frame.js';
import type { Template } from '../template/types.js';
import type { PrintOptions } from '../types.js';
import { type Grid, planGrid } from './grid.js';

const MOST_SHEETS = 600;

interface Plan {
  readonly grid: Grid;
  readonly stock: Stock;
  /** The printer's profile in the page's own axes. */
  readonly printer: PrinterScale | null;
  readonly warnings: readonly string[];
}

/** One sheet made to measure, with `room` mm of bare paper about the drawing. */
export const madeToMeasure = (template: Template, margin: number, room: number): Stock => {
  const page = pageFor({ width: widthOf(template.box) + 2 * room, height: heightOf(template.box) + 2 * room }, margin);
  // Never so small that the title strip cannot be read.
  const width = Math.max(150, Math.ceil(page.width));
  const height = Math.max(120, Math.ceil(page.height));
  return { name: `${width} × ${height} mm`, width, height };
};

const refusal = (template: Template, grid: Grid | null, stock: Stock, options: PrintOptions): string | null => {
  if (grid === null)
    return (
      `${stock.name} with margins of ${sayTyped(options.margin, options.speech)} leaves no room for the drawing: ` +
      'take larger paper'
    );
  const sheets = grid.rows * grid.columns;
  if (sheets > MOST_SHEETS)
    return (
      `the ${template.what} template would take ${sheets} sheets of ${stock.name}: take larger paper, a roll, or ` +
      'single for a plotter'
    );
  const [r, c] = options.sheet ?? [1, 1];
  if (Number.isInteger(r) && Number.isInteger(c) && r >= 1 && c >= 1 && r <= grid.rows && c <= grid.columns)
    return null;
  return `there is no sheet ${r},${c}: sheets run from 1,1 to ${grid.rows},${grid.columns} (row, column)`;
};

/**
 * The grid for a template on this paper. A printer was measured on upright sheets, and across and up are not alike on
 * it: with a profile, sheets stay upright unless landscape is asked for, and then the profile is turned with them.
 */
export const planSheets = (template: Template, options: PrintOptions, stock: Stock, single: boolean): Plan | string => {
  if (Math.max(stock.width, stock.height ?? 0) > LONGEST_PAGE)
    return (
      `one sheet of ${stock.name} is longer than a PDF page can be ` +
      `(${LONGEST_PAGE} mm): take a paper size and join the sheets`
    );
  const { printer, overlap } = options;
  const orientation = single || (printer !== null && options.orientation === 'any') ? 'portrait' : options.orientation;
  const turned = printer !== null && orientation === 'landscape' ? laidAcross(printer) : printer;
  const page =
    orientation === 'landscape'
      ? { width: stock.height ?? stock.width, height: stock.width }
      : { width: stock.width, height: stock.height ?? stock.width };
  const margin = Math.max(options.margin, turned === null ? 0 : pushedOut(turned, page));
  const holes = template.holes.map((h) => h.at);
  const planned = (o: PrintOptions['orientation']): Grid | null =>
    planGrid(template.box, holes, { stock, margin, overlap, orientation: o });
  const grid = planned(orientation);
  const why = refusal(template, grid, stock, options);
  if (why !== null || grid === null) return why ?? '';
  const across = orientation === options.orientation || single ? null : planned('landscape');
  const fewer = across !== null && across.rows * across.columns < grid.rows * grid.columns;
  return {
    grid,
    stock,
    printer: turned,
    warnings: [
      ...(fewer
        ? [
            `sheets are kept upright, as ${printer?.name ?? 'the printer'} was measured; ` +
              `${across.rows * across.columns} instead of ${grid.rows * grid.columns} would do in landscape`,
          ]
        : []),
      ...(printer !== null && printer.paper !== '' && printer.paper !== stock.name
        ? [`${printer.name} was measured on ${printer.paper}, not on ${stock.name}: check the rulers with care`]
        : []),
    ],
  };
};
