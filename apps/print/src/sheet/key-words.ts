import { type Speech, say, sayAll } from '@fayplate/core';
import type { Stock } from '../paper/paper.js';
import type { PrinterProfile } from '../printer/profile.js';
import type { Remaining } from '../printer/remaining.js';
import type { Template } from '../template/types.js';
import type { Grid } from '../tiles/grid.js';
import type { Mark } from '../tiles/marks.js';
import type { KeyWords } from './key.js';
import { remainingWords, scaleWords } from './words.js';

export interface KeyFacts {
  readonly job: string;
  readonly template: Template;
  readonly grid: Grid;
  readonly stock: Stock;
  readonly marks: readonly Mark[];
  readonly remaining: Remaining;
  readonly printer: PrinterProfile | null;
  readonly date: Date | null;
  readonly speech: Speech;
}

const joinSteps = ({ grid, marks }: KeyFacts): readonly string[] =>
  grid.rows * grid.columns === 1
    ? []
    : [
        `Cut along the dashed lines, lay each sheet on the next so that the two halves of every mark (${marks[0]?.n ?? ''} to ${marks.at(-1)?.n ?? ''}) make one, and glue. No two joins have the same marks.`,
        'Measure the long rulers again once the sheets are glued.',
      ];

/** Holes that carry a ring, and why. */
const ringWords = ({ way }: Template): string =>
  way === null || way.byReadOut.length === 0
    ? ''
    : ` No cross stands in a ring (${sayAll(way.byReadOut)}): there a punch mark comes too far off, so place these by read-out.`;

const workStep = (template: Template): string =>
  template.what === 'drill'
    ? `Fix the paper to the plate, punch lightly at each bare centre, look through a glass, then punch home.${ringWords(template)}`
    : template.what === 'part'
      ? 'Cut out the circles and lay the paper on the part: every rim shows all round. Where one does not, measure that feature again.'
      : template.what === 'depths'
        ? 'Cut out the strips. Hold one beside the tool, its end at the point of a drill or the shoulder of another tool, and set the stop.'
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
        `${f.grid.rows} × ${f.grid.columns} of ${f.stock.name}, ${width > height ? 'landscape' : 'portrait'} (rows × columns)`,
      ],
      ['Scale', scaleWords(f.printer)],
      ...date,
    ],
    steps: [
      "Print at 'actual size' or 100 %, one-sided, never 'fit to page'.",
      'Lay a steel rule along both rulers of every sheet. If one does not read true, stop: print the calibration sheet, measure it and keep a printer profile.',
      ...joinSteps(f),
      workStep(f.template),
      ...(f.template.way === null
        ? []
        : [
            `Paper and punch place a hole within ± ${say(f.template.way.plusMinus, { ...f.speech, fraction: null }, f.speech.unit === 'in' ? 3 : 2)}, the print’s own share in it.`,
          ]),
      ...(f.template.holes.length === 0 ? [] : [remainingWords(f.remaining, f.printer, f.speech)]),
    ],
  };
};
