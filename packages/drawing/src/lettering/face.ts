import { oncePer } from '@fayplate/core';
import type { Glyph } from '../types.js';

/**
 * The letters that drawings are made with, as ranges of code points (Unicode blocks): Latin, Greek, Cyrillic, Armenian,
 * Hebrew, Georgian and signs. The fonts that ship are cut down to these, and a font that has more is used as if it had
 * not: so the same job gives the same drawing wherever it is drawn.
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

const isLetter = (code: number): boolean => letterRanges.some(([from, to]) => from <= code && code <= to);

/** One font: what the letterer needs of it, glyphs kept once read. */
export interface Face {
  /** Font units. */
  readonly capital: number;
  readonly idOf: (character: string) => number;
  readonly draws: (character: string) => boolean;
  readonly glyph: (id: number) => Glyph;
  /** Font units added between two glyphs. */
  readonly kern: (left: number, right: number) => number;
}

/** What a font says, wherever it is read from: 0 for a character without a glyph and for a pair without kerning. */
export interface FontSource {
  readonly idOf: (code: number) => number;
  readonly glyph: (id: number) => Glyph;
  readonly kern: (left: number, right: number) => number;
}

export const faceFrom = (source: FontSource): Face => {
  const glyph = oncePer(source.glyph);
  const idOf = oncePer((character: string) => source.idOf(character.codePointAt(0) ?? 0));
  const kernAfter = oncePer((left: number) => oncePer((right: number) => source.kern(left, right)));
  return {
    capital: Math.max(...glyph(idOf('H')).contours.flatMap((c) => [c.start.y, ...c.steps.map((s) => s.to.y)])),
    idOf,
    draws: oncePer((character) => {
      const id = idOf(character);
      return (
        isLetter(character.codePointAt(0) ?? 0) &&
        id !== 0 &&
        (glyph(id).contours.length > 0 || /\p{Zs}/u.test(character))
      );
    }),
    glyph,
    kern: (left, right) => kernAfter(left)(right),
  };
};
