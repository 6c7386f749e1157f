import { parseLength, perUnit } from '@fayplate/core';
import type { Job } from '@fayplate/job';
import type { Side } from '@fayplate/plate';
import type { Options } from './options.js';
import type { PrinterScale } from '@fayplate/drawing';
import type { PrintSettings } from './printing.js';
import { Refusal } from './refusal.js';

const sideOf = (text: string): Side => {
  if (text === 'A' || text === 'B') return text;
  throw new Refusal('--side takes A or B');
};

const sheetOf = (text: string | undefined): readonly [number, number] | null => {
  if (text === undefined) return null;
  const [, row, column] = /^(\d{1,3}),(\d{1,3})$/.exec(text.replaceAll(' ', '')) ?? [];
  if (row === undefined || column === undefined)
    throw new Refusal('--sheet takes the row and the column as the sheet itself says them, such as 2,1');
  return [Number(row), Number(column)];
};

const lengthOf = (name: string, text: string | undefined, job: Job): number | null => {
  if (text === undefined) return null;
  const read = parseLength(text, perUnit(job.units));
  if (!read.ok || read.value < 0)
    throw new Refusal(`${name} takes ${read.ok ? 'a length of zero or more' : read.expected}`);
  return read.value;
};

const turnedOf = (text: string | undefined): PrintSettings['orientation'] => {
  if (text === undefined || text === 'any' || text === 'portrait' || text === 'landscape') return text ?? 'any';
  throw new Refusal('--turned takes portrait, landscape or any');
};

/**
 * How a job is printed: what was asked wins over the job's own `print` section. Refuses in words what cannot be read.
 */
export const printSettings = (
  job: Job,
  options: Pick<Options, 'paper' | 'side' | 'sheet' | 'margin' | 'overlap' | 'turned'>,
  printer: PrinterScale | null,
): Omit<PrintSettings, 'speech'> => ({
  paper: options.paper ?? job.print?.paper ?? 'A4',
  margin: lengthOf('--margin', options.margin, job) ?? job.print?.margin ?? 8,
  overlap: lengthOf('--overlap', options.overlap, job) ?? job.print?.overlap ?? 10,
  orientation: turnedOf(options.turned),
  sheet: sheetOf(options.sheet),
  printer,
  date: null,
  side: sideOf(options.side ?? 'B'),
});
