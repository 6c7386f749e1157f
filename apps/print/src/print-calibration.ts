import { stockOf } from './paper/paper.js';
import { writePdf } from './pdf/write.js';
import { missingWords, recording } from './record.js';
import { calibrationSheet } from './sheet/calibration.js';
import { LEAST_WINDOW, frameOf, heightOf, widthOf } from './sheet/frame.js';
import type { NotPrinted, PrintJson, PrintOptions, Printed } from './types.js';

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
        `${stock.name} with margins of ${options.margin} mm is too small to measure a printer by: take the paper that you will print on, or smaller margins`,
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
