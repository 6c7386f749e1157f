import type { TableBlock } from '@fayplate/core';
import { inert } from '@fayplate/core';
import { padEnd, padStart, widthOf, wrap } from './columns.js';

const gap = '  ';

/** Lines numbers up on their decimal point by padding after it; texts without figures are left as they are. */
const pointed = (cells: readonly string[]): readonly string[] => {
  const after = (c: string): number => {
    const m = /^[-−+]?\d+(?:\.(\d+))?/.exec(c.trim());
    return m === null ? 0 : m[1] === undefined ? 0 : m[1].length + 1;
  };
  const most = Math.max(0, ...cells.map(after));
  return cells.map((c) => (/^[-−+]?\d/.test(c.trim()) && /^[-−+]?\d+(?:\.\d+)?$/.test(c.trim()) ? c + ' '.repeat(most - after(c)) : c));
};

/** Widths that fit the terminal: the widest left-aligned columns give way first and their cells wrap. */
const fitted = (natural: readonly number[], shrinks: readonly boolean[], room: number): readonly number[] => {
  const widths = [...natural];
  const total = (): number => widths.reduce((a, b) => a + b, 0) + gap.length * (widths.length - 1);
  while (total() > room) {
    const widest = widths.reduce((best, w, i) => (shrinks[i] === true && w > 12 && (best < 0 || w > (widths[best] ?? 0)) ? i : best), -1);
    if (widest < 0) break;
    widths[widest] = (widths[widest] ?? 0) - 1;
  }
  return widths;
};

/** A table as lines of text, no wider than `width` where its left-aligned columns can give way. */
export const tableLines = (table: TableBlock, width: number): readonly string[] => {
  const cells = table.rows.map((row) => table.columns.map((_, i) => inert(row[i] ?? '')));
  const columns = table.columns.map((column, i) => {
    const raw = cells.map((row) => row[i] ?? '');
    return { ...column, cells: column.align === 'point' ? pointed(raw) : raw };
  });
  const natural = columns.map((c) => Math.max(widthOf(c.title), ...c.cells.map(widthOf)));
  const widths = fitted(natural, columns.map((c) => c.align === 'left'), width);
  const row = (texts: readonly string[]): readonly string[] => {
    const broken = texts.map((t, i) => (columns[i]?.align === 'left' ? wrap(t, widths[i] ?? 0) : [t]));
    const height = Math.max(...broken.map((b) => b.length));
    return Array.from({ length: height }, (_, k) =>
      broken
        .map((b, i) => (columns[i]?.align === 'left' ? padEnd : padStart)(b[k] ?? '', widths[i] ?? 0))
        .join(gap)
        .trimEnd(),
    );
  };
  const rule = widths.map((w) => '─'.repeat(w)).join(gap);
  return [...row(columns.map((c) => c.title)), rule, ...table.rows.flatMap((_, k) => row(columns.map((c) => c.cells[k] ?? '')))];
};
