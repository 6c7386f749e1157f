import { once, oncePer } from '@fayplate/core';
import type { LaidText, Lettering, Weight } from '../types.js';
import { type Face, faceFrom } from './face.js';
import { faceOf } from './font.js';
import { unpackOutlines } from './outlines/unpack.js';
import { spell } from './spell.js';

/** The bytes of the font files, one a weight. */
export interface FontFiles {
  readonly regular: ArrayBuffer;
  readonly bold: ArrayBuffer;
}

const digit = /^\d$/;

/** A text set in the units of its font. */
interface Line {
  readonly glyphs: LaidText['glyphs'];
  readonly advance: number;
  readonly missing: readonly string[];
}

const setOf = (face: Face, text: string): Line => {
  const { characters, missing } = spell(text, face.draws);
  let pen = 0;
  let before: { readonly id: number; readonly text: string } | null = null;
  const glyphs: LaidText['glyphs'][number][] = [];
  for (const character of characters) {
    const id = face.idOf(character);
    // Figures keep one width, so that columns of them line up.
    if (before !== null && !(digit.test(character) && digit.test(before.text))) pen += face.kern(before.id, id);
    glyphs.push({ id, at: pen, text: character });
    pen += face.glyph(id).advance;
    before = { id, text: character };
  }
  return { glyphs, advance: pen, missing };
};

/** A label is measured, placed and drawn, on a sheet and on a page: it is set once. */
const lineOf = oncePer(
  (face: Face) => oncePer((text: string) => setOf(face, text)),
  new WeakMap<Face, (text: string) => Line>(),
);

const lay = (face: Face, text: string, capital: number): LaidText => {
  const { glyphs, advance, missing } = lineOf(face)(text);
  const scale = capital / face.capital;
  return { glyphs: glyphs.map((g) => ({ ...g, at: g.at * scale })), width: advance * scale, scale, missing };
};

const letteringOf = (faces: Readonly<Record<Weight, () => Face>>): Lettering => ({
  lay: (text, capital, weight) => lay(faces[weight](), text, capital),
  width: (text, capital, weight) => {
    const face = faces[weight]();
    return lineOf(face)(text).advance * (capital / face.capital);
  },
  glyph: (id, weight) => faces[weight]().glyph(id),
});

/**
 * Letters as outlines, from the bytes of a regular and a bold font; each is parsed when first used.
 * Lengths are mm, sized by the height of a capital. What a font lacks is drawn as its code and listed in `missing`.
 */
export const lettering = (files: FontFiles): Lettering =>
  letteringOf({ regular: once(() => faceOf(files.regular)), bold: once(() => faceOf(files.bold)) });

/**
 * The same letters from what `packOutlines` made of the two fonts: the same numbers, without the library that reads
 * fonts.
 */
export const letteringFrom = (packed: Readonly<Record<Weight, () => Uint8Array>>): Lettering =>
  letteringOf({
    regular: once(() => faceFrom(unpackOutlines(packed.regular()))),
    bold: once(() => faceFrom(unpackOutlines(packed.bold()))),
  });
