import type { Place } from '../types.js';

/** A text that faults point into: the job file (`file` null) or a CSV list beside it. */
export interface Source {
  readonly file: string | null;
  readonly text: string;
}

/** What a decoder puts in place of bytes that are no UTF-8: an old editor wrote the ± in a code page, or the file is UTF-16. */
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
