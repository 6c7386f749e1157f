/**
 * The letters that drawings are made with, as ranges of code points (Unicode blocks): Latin, Greek, Cyrillic, Armenian, Hebrew, Georgian and
 * signs. The fonts that ship are cut down to these, and a font that has more is used as if it had not: so the same job gives the same
 * drawing wherever it is drawn.
 */
export const letterRanges: readonly (readonly [number, number])[] = [
  [0x20, 0x7e],
  [0xa0, 0x52f],
  [0x531, 0x58f],
  [0x591, 0x5f4],
  [0x10a0, 0x10ff],
  [0x1e00, 0x1eff],
  [0x2000, 0x2312],
  [0x25a0, 0x25ff],
  [0x2713, 0x2718],
  [0x279c, 0x279c],
];

export const isLetter = (code: number): boolean => letterRanges.some(([from, to]) => from <= code && code <= to);
