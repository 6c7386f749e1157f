/** A cell as RFC 4180 has it: its text with the quotes taken off, and where it starts. */
export interface Cell {
  readonly text: string;
  readonly at: number;
}

/** What cannot be read of a list, and where. */
interface CsvFault {
  readonly at: number;
  readonly found: string;
  readonly expected: string;
}

interface CsvRead {
  readonly mark: ',' | ';';
  readonly rows: readonly (readonly Cell[])[];
  readonly faults: readonly CsvFault[];
}

const isGap = (c: string | undefined): boolean => c === ' ' || c === '\t';

/** The quote that closes the one at `at`; −1: none. */
const closing = (text: string, at: number): number => {
  for (let end = text.indexOf('"', at + 1); end !== -1; end = text.indexOf('"', end + 2))
    if (text[end + 1] !== '"') return end;
  return -1;
};

/**
 * Rows of a list parted by commas, or by semicolons where the heading has no comma; lines end as in every file (see
 * `withLineFeeds`). A quoted cell may hold the mark and doubled quotes, and line breaks where it is the last of its
 * row; behind its closing quote comes the mark or the end of the line. A quote that does not open a cell is an inch
 * mark. Empty rows are left out. What is against this is a fault at its place, and reading goes on with the next line.
 */
export const csvRows = (text: string): CsvRead => {
  const start = text.startsWith('\ufeff') ? 1 : 0;
  const heading = text.slice(start, text.search(/\n|$/));
  const mark = heading.includes(',') || !heading.includes(';') ? ',' : ';';
  const rows: Cell[][] = [];
  const faults: CsvFault[] = [];
  let row: Cell[] = [];
  let i = start;
  const lineEnd = (from: number): number => {
    const end = text.indexOf('\n', from);
    return end === -1 ? text.length : end;
  };
  const toMark = (from: number): number => {
    let at = from;
    while (at < text.length && text[at] !== mark && text[at] !== '\n') at++;
    return at;
  };
  const quoted = (at: number): string => {
    const end = closing(text, at);
    const line = lineEnd(at);
    let after = end + 1;
    while (isGap(text[after])) after++;
    const ends = after >= text.length || text[after] === '\n';
    if (end === -1 || (end > line && !ends)) {
      faults.push({ at, found: text.slice(at, line), expected: 'a closing quote (") on the same line' });
      i = line;
      return text.slice(at + 1, line);
    }
    i = toMark(after);
    if (!ends && text[after] !== mark)
      faults.push({
        at: after,
        found: text.slice(after, i),
        expected: `a ${mark} or the end of the line behind the closing quote; a quote within a cell is written twice ("")`,
      });
    return text.slice(at + 1, end).replaceAll('""', '"');
  };
  while (i < text.length) {
    let at = i;
    while (isGap(text[at])) at++;
    let cell: string;
    if (text[at] === '"') cell = quoted(at);
    else {
      i = toMark(at);
      cell = text.slice(at, i);
    }
    row.push({ text: cell.trim(), at });
    if (i >= text.length || text[i] === '\n') {
      if (row.some((c) => c.text !== '')) rows.push(row);
      row = [];
    }
    i++;
  }
  if (row.some((c) => c.text !== '')) rows.push(row);
  return { mark, rows, faults };
};
