import { oncePer } from '@fayplate/core';
import type { Glyph } from '../types.js';
import { isLetter } from './letters.js';

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
