import { expect } from 'vitest';
import {
  type Fault,
  type Job,
  type JobRead,
  type Reading,
  type ReadOptions,
  faultLines,
  readJob,
} from '../src/index.js';

/** The job of a text that must read; its faults are shown where it does not. */
export const jobOf = (text: string, options?: ReadOptions): Job => {
  const read = readJob(text, options);
  if (!read.ok) throw new Error(faultLines(text, read.faults).join('\n'));
  return read.job;
};

export const faultsOf = (read: JobRead): readonly Fault[] => (read.ok ? [] : read.faults);

/** A small job round `lines` of readings: studs A B C D and a spigot S, a rule, a caliper and a protractor. */
export const shop = (lines: readonly string[], units: 'mm' | 'in' = 'mm'): string =>
  [
    'job: bench',
    `units: ${units}`,
    'instruments:',
    '  rule: ± 0.5 mm',
    '  caliper: ± 0.002 in',
    '  protractor: ± 0.5 deg',
    'faces:',
    '  pump:',
    '    features:',
    '      S: { kind: spigot, diameter: 60 mm ± 0.02 mm }',
    ...['A', 'B', 'C', 'D'].map((n) => `      ${n}: { kind: stud, diameter: 8 mm }`),
    '    readings:',
    ...lines.map((l) => `      - ${l}`),
    '',
  ].join('\n');

/** The readings of a list of lines. */
export const readingsOf = (lines: readonly string[], units: 'mm' | 'in' = 'mm'): readonly Reading[] =>
  jobOf(shop(lines, units)).faces[0]?.readings ?? [];

export const readingOf = (line: string, units: 'mm' | 'in' = 'mm'): Reading => {
  const [reading] = readingsOf([line], units);
  if (reading === undefined) throw new Error(`no reading in ${line}`);
  return reading;
};

/** Where the mark « stands in a text, by characters, and the text without its marks. */
export const unmarked = (marked: string): { readonly text: string; readonly line: number; readonly column: number } => {
  const before = marked.slice(0, marked.indexOf('«')).split('\n');
  return { text: marked.replace(/[«»]/g, ''), line: before.length, column: Array.from(before.at(-1) ?? '').length + 1 };
};

/**
 * A fault against the marks of a text: whether it lies at «, and whether what stands between « and » is what was found.
 */
export interface Told {
  readonly place: string;
  readonly found: string;
  readonly expected: string;
  readonly nearest: string | null;
}

/** The faults of a marked text. */
export const refusals = (marked: string, options?: ReadOptions): readonly Told[] => {
  const { text, line, column } = unmarked(marked);
  const between = /«([^»]*)»/.exec(marked)?.[1];
  return faultsOf(readJob(text, options)).map((f) => ({
    place: f.line === line && f.column === column ? 'at the mark' : `line ${f.line}, column ${f.column}`,
    found: between === undefined || between === f.found ? 'as marked' : f.found,
    expected: f.expected,
    nearest: f.nearest,
  }));
};

/** What a fault at the mark must say. */
export const told = (expected: RegExp, nearest: string | null = null): unknown => ({
  place: 'at the mark',
  found: 'as marked',
  expected: expect.stringMatching(expected),
  nearest,
});

/** The only fault of a marked text; else all of them, for a test to show. */
export const refusal = (marked: string, options?: ReadOptions): Told | readonly Told[] => {
  const all = refusals(marked, options);
  const [one] = all;
  return all.length === 1 && one !== undefined ? one : all;
};
