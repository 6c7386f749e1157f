/**
 * What packed outlines are made of: streams of numbers, like beside like, which a compressor then packs well. A number
 * stands in bytes of seven bits, the low ones first, the eighth bit set where more follow (LEB128); a number with a
 * sign is folded: 0, −1, 1, −2, 2 …
 */
export const names = [
  /** For each code point of `letterRanges`: its glyph less that of the code point before, folded. */
  'characters',
  /** For each glyph from 1 on: advance less that of the glyph before, folded; how many contours it has. */
  'advances',
  'counts',
  /**
   * For each contour of each glyph: 0 for a new one, 1 for the one after that before it in the glyph, else the number
   * of the one that it repeats, from 2. Then where it starts, twice over, folded: from where the contour that it
   * repeats started when it was new, and moved like the one before it in the glyph; a new one from where the one before
   * it starts.
   */
  'contours',
  'startX',
  'startY',
  /** For each step of a new contour: what it is (`Step`), and how far it goes, folded. */
  'steps',
  'stepX',
  'stepY',
  /**
   * Pairs that are kerned: the left glyph less the one before, how many follow it, and for each its right glyph less
   * the one before and its value, folded.
   */
  'kerns',
] as const;
export type Name = (typeof names)[number];

/**
 * A step: how the pen goes, then bits. `x`, `y`: along that axis alone; `home`: to where the contour starts; `between`:
 * half way to the next control.
 */
export const step = {
  line: 0,
  lineX: 1,
  lineY: 2,
  lineHome: 3,
  curve: 4,
  curveX: 5,
  curveY: 6,
  curveHome: 7,
  curveBetween: 8,
  /** The contour's last. */
  last: 16,
  /** Its numbers count halves of a font unit. */
  halves: 32,
} as const;

export const folded = (n: number): number => (n < 0 ? -2 * n - 1 : 2 * n);
const unfolded = (n: number): number => (n % 2 === 0 ? n / 2 : -(n + 1) / 2);

/** The bytes of one number, not below 0. */
export const bytesOf = (n: number): readonly number[] =>
  n < 128 ? [n] : [(n % 128) + 128, ...bytesOf(Math.floor(n / 128))];

/** Reads a stream from `at` on. */
export interface Reader {
  at: number;
  readonly ended: () => boolean;
  readonly next: () => number;
  /** A number with a sign. */
  readonly signed: () => number;
}

export const readerOf = (bytes: Uint8Array): Reader => {
  const reader: Reader = {
    at: 0,
    ended: () => reader.at >= bytes.length,
    next: () => {
      let [n, scale] = [0, 1];
      for (;;) {
        const byte = bytes[reader.at++];
        if (byte === undefined) throw new RangeError('packed outlines end too soon');
        n += (byte % 128) * scale;
        if (byte < 128) return n;
        scale *= 128;
      }
    },
    signed: () => unfolded(reader.next()),
  };
  return reader;
};
