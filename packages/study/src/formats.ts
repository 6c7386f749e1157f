import type { MachinistTable } from '@fayplate/machining';
import type { Plate } from '@fayplate/plate';
import type { Notice } from './printing.js';

/** How a kind of file is known again: by its ending, and by how it begins where Fayplate wrote it. */
export interface Format {
  /** How its file names end, without the dot. */
  readonly extension: string;
  /** Whether a file that begins so (its first 64 kB, a byte a letter) was written by Fayplate and may be replaced. */
  readonly isOurs: (head: string) => boolean;
}

/** What a file for the machine is made from. */
export interface MachineSource {
  readonly plate: Plate;
  readonly table: MachinistTable;
  /** The job's name. */
  readonly name: string;
  /** What the file says of the job; `across`: readings are not settled. */
  readonly notice?: Notice;
  readonly dryRun?: boolean;
  /** Unit words of the standard, G70 and G71. */
  readonly g70G71?: boolean;
}

/** One file: its name in a packet without the ending, what it is, its text. */
export interface MachineFile {
  readonly name: string;
  readonly says: string;
  readonly text: string;
}

/** The files of one format, or in words why none can be made. */
export type MachineMade =
  | {
      readonly ok: true;
      readonly files: readonly MachineFile[];
      /** What is not among them, and why. */ readonly without?: readonly string[];
    }
  | { readonly ok: false; readonly faults: readonly string[] };

/**
 * A format of what goes to the shop. `table` makes it for its flag, a packet holds it, and `isOurs` lets it be written
 * again.
 */
export interface MachineFormat extends Format {
  /**
   * The option of `table`, and what its help says. `beside`: a file named after the flag, beside the words; else in
   * place of the words.
   */
  readonly flag: 'csv' | 'cnc' | 'step';
  readonly help: string;
  readonly beside: boolean;
  readonly make: (source: MachineSource) => Promise<MachineMade>;
}

/** Carries the name near its top: XML and ISO 10303-21 have a place for it. */
const named =
  (start: RegExp) =>
  (head: string): boolean =>
    start.test(head) && head.slice(0, 2000).toLowerCase().includes('fayplate');

/**
 * What the heading of a table says of the job, for whoever opens it in a spreadsheet: its verdict, and what is not
 * settled.
 */
const csvSays = (name: string, notice: Notice | undefined, centres: string): string | null =>
  notice === undefined
    ? null
    : [...(notice.across === null ? [] : [notice.across]), notice.line, name, ...(centres === '' ? [] : [centres])]
        .map((said) => (said.endsWith('.') ? said : `${said}.`))
        .join(' ');

/** One record a format: a new one is added here, and nowhere else. */
export const machineFormats: readonly MachineFormat[] = [
  {
    flag: 'csv',
    extension: 'csv',
    help: 'comma separated values instead of words',
    beside: false,
    make: async ({ table, name, notice }) => {
      const { tableCsv } = await import('@fayplate/machining');
      const { centreWords } = await import('@fayplate/plate');
      return {
        ok: true,
        files: [
          {
            name: 'table',
            says: 'the machinist’s table for a spreadsheet',
            text: tableCsv(table, csvSays(name, notice, centreWords(table, { unit: table.unit, fraction: null }))),
          },
        ],
      };
    },
    isOurs: (head) => head.startsWith('n,side,hole,op,tool,'),
  },
  {
    flag: 'cnc',
    extension: 'cnc',
    help:
      'programs (ISO 6983) instead of words: one for each side that is drilled, each bore, each slot, and the ' +
      'outline where `machine` names its cutter',
    beside: false,
    make: async ({ plate, table, name, notice, dryRun = false, g70G71 = false }) => {
      const { iso6983 } = await import('@fayplate/machining');
      const made = iso6983(plate, table, {
        name,
        dryRun,
        dialect: g70G71 ? 'standard' : 'usual',
        ...(notice === undefined ? {} : { notice }),
      });
      if (!made.ok) return made;
      // Programs never share a file: one is run, the plate turned over or a tool set, then the next.
      const files = made.programs.map(({ name: own, says, text }) => ({ name: own, says, text }));
      return { ok: true, files, without: made.without };
    },
    isOurs: (head) => /^%\s*\(FAYPLATE/.test(head),
  },
  {
    flag: 'step',
    extension: 'step',
    help: 'write the plate as a solid, ISO 10303-21',
    beside: true,
    make: async ({ plate, name, notice }) => {
      const { stepSolid } = await import('@fayplate/machining');
      const made = stepSolid(plate, { name: notice?.across == null ? name : `${notice.across}. ${name}` });
      return made.ok
        ? { ok: true, files: [{ name: 'plate', says: 'ISO 10303-21 solid of the plate', text: made.text }] }
        : made;
    },
    isOurs: named(/^ISO-10303-21;/),
  },
];

/** Every format that Fayplate writes. A job file is none of them: whoever filled it in would lose the readings. */
export const formats: readonly Format[] = [
  ...machineFormats,
  // The producer stands among a PDF's first objects, in UTF-16 as hexadecimal.
  {
    extension: 'pdf',
    isOurs: (head) => head.startsWith('%PDF-') && head.toUpperCase().includes('0046006100790070006C006100740065'),
  },
  { extension: 'svg', isOurs: named(/^<svg /i) },
  // A zip archive whose first entry stands in it as it is.
  {
    extension: '3mf',
    isOurs: (head) => head.startsWith('PK') && head.slice(0, 400).includes('<!-- Fayplate -->'),
  },
  { extension: 'html', isOurs: named(/^<!doctype html>/i) },
  { extension: 'json', isOurs: (head) => /^\{\s*"fayplate":/.test(head) },
];

/** Whether Fayplate wrote a file that begins so, in any of its formats. */
export const isOurs = (head: string): boolean => formats.some((f) => f.isOurs(head));
