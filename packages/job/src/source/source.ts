import type { Place } from '../types.js';

/**
 * What a job file may hold at most; a file beyond any of these is refused before it costs time. `check` ends on so many
 * features and readings within 20 s and 1 GB (apps/cli/bench/largest.ts).
 */
export const most = {
  bytes: 1_048_576,
  features: 1_000,
  readings: 4_000,
  /** Characters of one line, and of one value that runs over several. */
  lineLength: 20_000,
  /** Lists and sections within one another. */
  depth: 32,
  /** Words, marks and gaps as YAML counts them: 4,000 readings need about 24,000, and comments and flow lists more. */
  tokens: 300_000,
  /** Faults reported one by one. */
  faults: 500,
} as const;

/** `4,000`; the language's own formatter takes 20 ms to wake up, for numbers that never change. */
export const inThousands = (n: number): string => {
  const digits = String(n);
  const first = digits.length % 3 || 3;
  return [digits.slice(0, first), ...(digits.slice(first).match(/\d{3}/g) ?? [])].join(',');
};

export const tooMany = (limit: number, what: string): string => `at most ${inThousands(limit)} ${what} in one job`;

/** Length of the text in UTF-8. */
export const utf8Bytes = (text: string): number => {
  let bytes = 0;
  for (let i = 0; i < text.length; i++) {
    const c = text.charCodeAt(i);
    bytes += c < 0x80 ? 1 : c < 0x800 || (c >= 0xd800 && c < 0xe000) ? 2 : 3;
  }
  return bytes;
};

/** A text that faults point into: the job file (`file` null) or a CSV list beside it. */
export interface Source {
  readonly file: string | null;
  readonly text: string;
}

/**
 * The one rule of line ends, for every file that is read: LF or CR LF; a CR alone is refused (see `oddCharacter`),
 * since what stands behind it is one line to some programs and another to others. The answer is as long as the text, so
 * that places stay.
 */
export const withLineFeeds = (text: string): string => text.replaceAll('\r\n', ' \n');

/**
 * YAML 1.2 §5.1: what a file may hold unescaped, except the marks of Unicode that some editors show as a new line and
 * others do not.
 */
const unprintable = /[^\t\n\u0020-\u007e\u00a0-\u2027\u202a-\ufffd\u{10000}-\u{10ffff}]/u;

/** The first character that no file may hold, and what was expected in its place; null: none. */
export const oddCharacter = (
  text: string,
): { readonly at: number; readonly found: string; readonly expected: string } | null => {
  const odd = unprintable.exec(text);
  if (odd === null) return null;
  const code = `U+${(odd[0].codePointAt(0) ?? 0).toString(16).toUpperCase().padStart(4, '0')}`;
  const expected = text.includes(FOREIGN)
    ? inUtf8
    : /[\r\u0085\u2028\u2029]/.test(odd[0])
      ? `an ordinary end of the line, not ${code}: press Enter there instead`
      : `characters that can be printed, not ${code}: type the line again`;
  return { at: odd.index, found: odd[0], expected };
};

/**
 * What a decoder puts in place of bytes that are no UTF-8: an old editor wrote the ± in a code page, or the file is
 * UTF-16.
 */
export const FOREIGN = '\ufffd';
export const inUtf8 = 'text saved as UTF-8; this file was saved in another encoding: save it again as UTF-8';

/** From the first character to just after the last, in UTF-16 units of the source. */
export interface Span {
  readonly from: number;
  readonly to: number;
}

/** Offset → line and column from 1; a column counts characters, so that a letter beyond the basic plane is one. */
const placer = (text: string): ((offset: number) => Place) => {
  const starts = [0];
  for (let i = text.indexOf('\n'); i !== -1; i = text.indexOf('\n', i + 1)) starts.push(i + 1);
  return (offset) => {
    let low = 0;
    let high = starts.length - 1;
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      if ((starts[middle] ?? 0) <= offset) low = middle;
      else high = middle - 1;
    }
    return { line: low + 1, column: Array.from(text.slice(starts[low], offset)).length + 1 };
  };
};

const placers = new WeakMap<Source, (offset: number) => Place>();

/** The line starts of a source are found once. */
export const placeIn = (source: Source, offset: number): Place => {
  const place = placers.get(source) ?? placer(source.text);
  placers.set(source, place);
  return place(offset);
};

/** Where the line of `offset` ends, its line break left out. */
export const endOfLine = (text: string, offset: number): number => {
  const end = text.indexOf('\n', offset);
  return end === -1 ? text.length : end;
};
