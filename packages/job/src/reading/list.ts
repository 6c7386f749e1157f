import type { Findings } from '../faults/findings.js';
import { type Source, endOfLine, most, oddCharacter, tooMany, utf8Bytes, withLineFeeds } from '../source/source.js';
import { type Cell, csvRows } from '../source/csv.js';
import type { RawLine } from './lines.js';

const columns = ['kind', 'features', 'value', 'plus_minus', 'instrument', 'note'] as const;
type Column = (typeof columns)[number];

/** A name of a file beside the job and nothing else: no folder above, no drive, no address. */
export const listName = (name: string): string | null => {
  const expected = 'the name of a CSV file beside the job, such as pump.csv';
  if (name.length > 200 || /[\p{Cc}\p{Cf}:*?"<>|\\]/u.test(name) || !/\.csv$/i.test(name)) return expected;
  if (/^[/~]/.test(name)) return `${expected}: no path from the root`;
  if (name.split('/').some((part) => part === '..' || part === '.' || part === '')) return `${expected}: no .. in it`;
  return null;
};

/** Where in a composed line each cell stands. */
interface Part {
  readonly from: number;
  readonly cell: Cell;
}

/**
 * `81,96` for 81.96 fills two columns. Where a whole value and a whole ± stand side by side nothing tells which is
 * meant, so the ± must be said; in a list parted by semicolons the comma would stay in its cell.
 */
const commaLikely = (cells: ReadonlyMap<Column, Cell>): string | null => {
  const [value = '', plusMinus = ''] = [cells.get('value')?.text, cells.get('plus_minus')?.text];
  const unit = /^\d+( ?[a-z"″']*)$/i.exec(plusMinus);
  if (!/^\d+$/.test(value) || unit === null) return null;
  return `a decimal point: ${value}.${plusMinus}; or, where ${value} ± ${plusMinus} is meant, ± before its ${plusMinus}`;
};

/** One row as a reading line, with each word traced back to its cell. */
const composed = (
  cells: ReadonlyMap<Column, Cell>,
): { readonly text: string; readonly offset: (i: number) => number } => {
  const parts: Part[] = [];
  let text = '';
  const add = (before: string, column: Column, strip = /^$/): void => {
    const cell = cells.get(column);
    const words = cell?.text.replace(strip, '').replace(/\s+/g, ' ') ?? '';
    if (cell === undefined || words === '') return;
    text += before;
    parts.push({ from: text.length, cell });
    text += words;
  };
  add('', 'kind');
  add(' ', 'features');
  add(' = ', 'value');
  add(' ± ', 'plus_minus', /^(?:±|\+\/-|\+-)\s*/);
  add(' by ', 'instrument');
  const offset = (i: number): number => {
    const part = parts.findLast((p) => p.from <= i) ?? parts[0];
    if (part === undefined) return 0;
    const word = /^\S+/.exec(text.slice(i))?.[0] ?? '';
    return part.cell.at + Math.max(0, word === '' ? 0 : part.cell.text.indexOf(word));
  };
  return { text, offset };
};

/** A CSV list of readings → raw lines, its notes beside them; null where its heading cannot be read. */
export const listedLines = (
  name: string,
  text: string,
  path: string,
  findings: Findings,
): { readonly lines: readonly RawLine[]; readonly notes: readonly (string | null)[] } | null => {
  const source: Source = { file: name, text: withLineFeeds(text) };
  const fault = (at: number, found: string, expected: string, among?: readonly string[]): null => {
    findings.fault({ code: 'list', at, source, found, expected, path, ...(among === undefined ? {} : { among }) });
    return null;
  };
  if (utf8Bytes(text) > most.bytes) return fault(0, name, 'a list of at most 1 MiB');
  const odd = oddCharacter(source.text.replace(/^\ufeff/, ' '));
  if (odd !== null) return fault(odd.at, odd.found, odd.expected);
  const { mark, ...read } = csvRows(source.text);
  for (const f of read.faults) fault(f.at, f.found, f.expected);
  const broken = new Set(read.faults.map((f) => endOfLine(source.text, f.at)));
  const [heading, ...rows] = read.rows;
  if (heading === undefined) return fault(0, '', `a heading line: ${columns.join(',')}`);
  if (rows.length > most.readings)
    return fault(rows[most.readings]?.[0]?.at ?? 0, `${rows.length} readings`, tooMany(most.readings, 'readings'));
  const names = heading.map((c) => c.text.toLowerCase());
  for (const cell of heading) {
    const column = cell.text.toLowerCase();
    if (!columns.some((c) => c === column))
      fault(cell.at, cell.text, `one of the columns ${columns.join(', ')}`, columns);
    else if (names.indexOf(column) !== heading.indexOf(cell))
      fault(cell.at, cell.text, `the column ${column} once only`);
  }
  if (!names.includes('kind') || !names.includes('features'))
    return fault(heading[0]?.at ?? 0, heading[0]?.text ?? '', `a heading line: ${columns.join(',')}`);
  const lines: RawLine[] = [];
  const notes: (string | null)[] = [];
  for (const [i, row] of rows.entries()) {
    const cells = new Map<Column, Cell>();
    for (const [k, cell] of row.entries()) {
      const column = columns.find((c) => c === names[k]);
      if (column !== undefined) cells.set(column, cell);
      else if (k >= names.length && cell.text !== '')
        fault(cell.at, cell.text, `no more than ${names.length} columns; a value that holds a comma stands in quotes`);
    }
    const comma = mark === ',' ? commaLikely(cells) : null;
    if (comma !== null) fault(cells.get('value')?.at ?? 0, cells.get('value')?.text ?? '', comma);
    // What cannot be taken apart is not judged further.
    if (comma !== null || row.some((c) => broken.has(endOfLine(source.text, c.at)))) continue;
    const line = composed(cells);
    const at = row[0]?.at ?? 0;
    if (line.text.length > most.lineLength) fault(at, line.text.slice(0, 40), 'a shorter row');
    lines.push({
      id: null,
      idAt: at,
      text: line.text.slice(0, most.lineLength),
      source,
      offset: line.offset,
      path: `${path}.${i}`,
    });
    const note = cells.get('note')?.text ?? '';
    notes.push(note === '' ? null : note);
  }
  return { lines, notes };
};
