import { type TableBlock, inert } from '@fayplate/core';
import stringWidth from 'fast-string-width';

/** Colour only on a terminal that has some, and never where NO_COLOR is set to anything (https://no-color.org). */
export const wantsColour = (
  onTerminal: boolean,
  { NO_COLOR: none, TERM: terminal }: Readonly<Record<string, string | undefined>>,
): boolean => onTerminal && (none === undefined || none === '') && terminal !== 'dumb';

/** Latin letters, figures and signs (Unicode's first blocks, no controls, no soft hyphen): each takes one column. */
const latin = /^[ -~\u00a0-\u00ac\u00ae-\u02af]*$/;

/**
 * Columns that a text takes on a terminal. Most texts are plain, and the expressions that tell wide signs from narrow
 * ones are slow to wake.
 */
export const widthOf = (text: string): number => (latin.test(text) ? text.length : stringWidth(text));

const padEnd = (text: string, width: number): string => text + ' '.repeat(Math.max(0, width - widthOf(text)));
const padStart = (text: string, width: number): string => ' '.repeat(Math.max(0, width - widthOf(text))) + text;

/** Breaks at spaces so that no line is wider than `width`; a word that is wider stands alone on its line. */
export const wrap = (text: string, width: number): readonly string[] => {
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(' ')) {
    if (line === '') line = word;
    else if (widthOf(line) + 1 + widthOf(word) <= width) line += ` ${word}`;
    else {
      lines.push(line);
      line = word;
    }
  }
  return [...lines, line];
};

const between = ' · ';
const indent = '  ';

/**
 * One row of a table where the terminal is too narrow for its columns: what it is of, and below it each figure behind
 * its title.
 */
const recordLines = (titles: readonly string[], cells: readonly string[], width: number): readonly string[] => {
  const first = cells.findIndex((c) => c !== '');
  const items = cells.flatMap((cell, i) =>
    cell === '' || i === first ? [] : [titles[i] === undefined || titles[i] === '' ? cell : `${titles[i]} ${cell}`],
  );
  const room = width - indent.length;
  const lines: string[] = [];
  for (const item of items) {
    const last = lines.at(-1);
    if (last !== undefined && widthOf(last) + widthOf(between) + widthOf(item) <= room)
      lines[lines.length - 1] = `${last}${between}${item}`;
    else lines.push(...wrap(item, room));
  }
  return [...wrap(cells[first] ?? '', width), ...lines.map((l) => indent + l)];
};

/** Lines numbers up on their decimal point by padding after it; texts without figures are left as they are. */
const pointed = (cells: readonly string[]): readonly string[] => {
  const after = (c: string): number => {
    const m = /^[-−+]?\d+(?:\.(\d+))?/.exec(c.trim());
    return m === null ? 0 : m[1] === undefined ? 0 : m[1].length + 1;
  };
  const most = Math.max(0, ...cells.map(after));
  return cells.map((c) =>
    /^[-−+]?\d/.test(c.trim()) && /^[-−+]?\d+(?:\.\d+)?$/.test(c.trim()) ? c + ' '.repeat(most - after(c)) : c,
  );
};

interface Column {
  readonly left: boolean;
  /** Widest cell or title. */
  readonly natural: number;
  /** Widest that cannot be broken: a word, or a figure. */
  readonly least: number;
}

/** Between columns, and the width below which no cell is broken: as one likes it, and where it must be. */
const manners = [
  { gap: 2, narrow: 12 },
  { gap: 1, narrow: 8 },
] as const;

const total = (widths: readonly number[], gap: number): number =>
  widths.reduce((a, b) => a + b, 0) + gap * (widths.length - 1);

/**
 * Widths that fit the terminal: first the titles of figures are broken, then the cells of the widest left-aligned
 * columns.
 */
const fitted = (
  columns: readonly Column[],
  room: number,
  { gap, narrow }: (typeof manners)[number],
): readonly number[] => {
  const widths = columns.map((c) => c.natural);
  for (const left of [false, true]) {
    const floor = (c: Column): number => (left ? Math.max(narrow, c.least) : c.least);
    while (total(widths, gap) > room) {
      const widest = columns.reduce(
        (best, c, i) =>
          c.left === left && (widths[i] ?? 0) > floor(c) && (best < 0 || (widths[i] ?? 0) > (widths[best] ?? 0))
            ? i
            : best,
        -1,
      );
      if (widest < 0) break;
      widths[widest] = (widths[widest] ?? 0) - 1;
    }
  }
  return widths;
};

const longestWord = (text: string): number => Math.max(0, ...text.split(' ').map(widthOf));

/**
 * A table as lines of text no wider than `width`: where its columns cannot stand side by side, row by row with the
 * titles beside the figures.
 */
export const tableLines = (table: TableBlock, width: number): readonly string[] => {
  const cells = table.rows.map((row) => table.columns.map((_, i) => inert(row[i] ?? '')));
  const columns = table.columns.map((column, i) => {
    const raw = cells.map((row) => row[i] ?? '');
    return { ...column, cells: column.align === 'point' ? pointed(raw) : raw };
  });
  const shapes = columns.map((c): Column => {
    const left = c.align === 'left';
    const natural = Math.max(widthOf(c.title), ...c.cells.map(widthOf));
    return { left, natural, least: Math.max(longestWord(c.title), ...c.cells.map(left ? longestWord : widthOf)) };
  });
  const [liked, forced] = manners;
  const wide = fitted(shapes, width, liked);
  const fits = total(wide, liked.gap) <= width;
  const widths = fits ? wide : fitted(shapes, width, forced);
  if (total(widths, fits ? liked.gap : forced.gap) > width)
    return cells.flatMap((row) =>
      recordLines(
        table.columns.map((c) => inert(c.title)),
        row,
        width,
      ),
    );
  const gap = ' '.repeat(fits ? liked.gap : forced.gap);
  const row = (texts: readonly string[]): readonly string[] => {
    const broken = texts.map((t, i) => wrap(t, widths[i] ?? 0));
    const height = Math.max(...broken.map((b) => b.length));
    return Array.from({ length: height }, (_, k) =>
      broken
        .map((b, i) => (columns[i]?.align === 'left' ? padEnd : padStart)(b[k] ?? '', widths[i] ?? 0))
        .join(gap)
        .trimEnd(),
    );
  };
  const rule = widths.map((w) => '─'.repeat(w)).join(gap);
  return [
    ...row(columns.map((c) => c.title)),
    rule,
    ...table.rows.flatMap((_, k) => [
      ...(table.groups ?? []).filter((g) => g.from === k).flatMap((g) => wrap(inert(g.title), width)),
      ...row(columns.map((c) => c.cells[k] ?? '')),
    ]),
  ];
};
