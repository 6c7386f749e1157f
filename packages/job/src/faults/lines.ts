import { inert } from '@fayplate/core';
import { withLineFeeds } from '../source/source.js';
import type { Fault } from '../types.js';

/** Cells that a character takes on a terminal: two for East Asian wide forms and pictures, none for marks. */
const cells = (character: string): number =>
  /^\p{M}$/u.test(character)
    ? 0
    : /^[\u1100-\u115f\u2e80-\ua4cf\uac00-\ud7a3\uf900-\ufaff\ufe30-\ufe6f\uff00-\uff60\uffe0-\uffe6\u{1f300}-\u{1faff}\u{20000}-\u{3fffd}]$/u.test(
          character,
        )
      ? 2
      : 1;

/** Characters of a long line that are shown around the spot. */
const WINDOW = 100;

const shown = (line: string, column: number): { readonly text: string; readonly caret: string } => {
  const start = Math.max(0, line.length <= WINDOW ? 0 : column - 1 - WINDOW / 2);
  // A slice twice as long as the window holds it whole even where every character is a pair.
  const all = Array.from(line.slice(0, (column + WINDOW) * 2), inert);
  const from = Math.min(start, Math.max(0, all.length - WINDOW));
  const lead = from > 0 ? '… ' : '';
  const width = Array.from(all.slice(from, Math.max(from, column - 1)).join('')).reduce(
    (n, c) => n + cells(c),
    lead.length,
  );
  const tail = from + WINDOW < all.length ? ' …' : '';
  return { text: lead + all.slice(from, from + WINDOW).join('') + tail, caret: `${' '.repeat(width)}^` };
};

/**
 * Faults or warnings in words, one paragraph of lines each, without colour:
 * where, what was found; the line of the file; a caret under the spot; what was expected; a name that is close.
 * `text` is the job file's; `csv` gives the text of a list that a fault lies in.
 */
export const faultLines = (
  text: string,
  faults: readonly Fault[],
  csv: (name: string) => string | null = () => null,
): readonly string[] => {
  const files = new Map<string | null, readonly string[]>();
  const linesOf = (file: string | null): readonly string[] => {
    const lines = files.get(file) ?? withLineFeeds(file === null ? text : (csv(file) ?? '')).split('\n');
    files.set(file, lines);
    return lines;
  };
  return faults.map((f) => {
    const gutter = `${f.line}`;
    const { text: line, caret } = shown(linesOf(f.file)[f.line - 1] ?? '', f.column);
    const where = `${f.file === null ? '' : `${inert(f.file)}, `}line ${f.line}, column ${f.column}`;
    const path = f.path === '' ? '' : ` (${inert(f.path)})`;
    return [
      `${where}${path}: found ${f.found === '' ? 'nothing' : `"${f.found}"`}`,
      `  ${gutter} | ${line}`,
      `  ${' '.repeat(gutter.length)} | ${caret}`,
      `  expected ${f.expected}`,
      ...(f.nearest === null ? [] : [`  did you mean "${inert(f.nearest)}"?`]),
    ].join('\n');
  });
};
