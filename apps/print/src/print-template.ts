import { type Drawing, growBox, shapesBox, svg, visible } from '@fayplate/drawing';
import { type LaidTemplate, layTemplate } from './lay-template.js';
import { writePdf } from './pdf/write.js';
import { missingWords, recording } from './options.js';
import { acrossShapes } from './sheet/furniture.js';
import { dress } from './template/dress.js';
import type { Template } from './template/types.js';
import type { NotPrinted, PrintJson, PrintOptions, PrintedTemplate } from './types.js';

/** The contract's JSON of a laid template; angles in degrees. */
const printJson = (template: Template, laid: LaidTemplate, options: PrintOptions): PrintJson => {
  const { grid, remaining, printer } = laid;
  return {
    file: options.file,
    paper: { name: laid.stock.name, ...grid.frame.page },
    scale: { wide: printer?.wide ?? 1, high: printer?.high ?? 1, skew: ((printer?.skew ?? 0) * 180) / Math.PI },
    printer: printer?.name ?? null,
    what: template.what,
    side: template.side,
    grid: {
      rows: grid.rows,
      columns: grid.columns,
      overlap: grid.overlap,
      clearance: Number.isFinite(grid.clearance) ? grid.clearance : null,
    },
    still_off: { plus_minus: remaining.off, hole: remaining.hole },
    ...(template.way === null
      ? {}
      : { punched: { plus_minus: template.way.plusMinus, by_read_out: template.way.byReadOut } }),
    pages: laid.json,
  };
};

/**
 * A template on paper as PDF bytes, with the JSON that says where everything lies and warnings for a person.
 * Refuses, with advice, what cannot be printed true.
 */
export const printTemplate = async (
  job: string,
  template: Template,
  options: PrintOptions,
): Promise<PrintedTemplate | NotPrinted> => {
  const { lettering, missing } = recording(options.lettering);
  const laid = layTemplate(job, template, options, lettering);
  if (!laid.ok) return laid;
  const title = visible(`${job}: ${template.title}`);
  const bytes = await writePdf(
    { title, language: 'en-GB', date: options.date, pages: laid.pages, contents: [] },
    lettering,
  );
  return {
    ok: true,
    bytes,
    pages: laid.pages,
    title: template.title,
    json: printJson(template, laid, options),
    warnings: [...laid.warnings, ...missingWords(missing)],
  };
};

const EDGE = 6;

/**
 * The whole template as one SVG at true scale, for a laser or a cutting plotter: lines to cut, marks and notes are each
 * one group; letters are outlines. No printer's correction is in it.
 */
export const templateSvg = (
  job: string,
  template: Template,
  options: Pick<PrintOptions, 'lettering' | 'notice'>,
): { readonly text: string; readonly warnings: readonly string[] } => {
  const { lettering, missing } = recording(options.lettering);
  const dressed = dress(template, lettering, growBox(template.box, 60), { drawn: [], strips: [] });
  const drawn = [...template.shapes, ...dressed.shapes];
  const shapes = [...drawn, ...acrossShapes(template.box, options.notice?.across ?? null, lettering)];
  const drawing: Drawing = {
    title: visible(`${job}: ${template.title}`),
    box: growBox(shapesBox(shapes, lettering) ?? template.box, EDGE),
    shapes,
  };
  const words = svg(drawing, lettering);
  return { text: words, warnings: missingWords(missing) };
};
