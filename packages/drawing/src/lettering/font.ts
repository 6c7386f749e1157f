import { oncePer } from '@fayplate/core';
import opentype, { type Command, type Font } from 'opentype.js';
import type { Glyph, GlyphContour } from '../types.js';
import { isLetter } from './letters.js';
import { trimmed } from './tables.js';

/** One parsed font: what the letterer needs of it, glyphs kept once read. */
export interface Face {
  /** Font units. */
  readonly capital: number;
  readonly idOf: (character: string) => number;
  readonly draws: (character: string) => boolean;
  readonly glyph: (id: number) => Glyph;
  /** Font units added between two glyphs. */
  readonly kern: (left: number, right: number) => number;
}

/** opentype.js draws y down, and a line of no length after many a curve. */
const contoursOf = (commands: readonly Command[]): readonly GlyphContour[] => {
  const contours: { start: { x: number; y: number }; steps: GlyphContour['steps'][number][] }[] = [];
  for (const c of commands) {
    if (c.type === 'M') contours.push({ start: { x: c.x, y: -c.y }, steps: [] });
    const contour = contours.at(-1);
    if (contour === undefined || c.type === 'M' || c.type === 'Z') continue;
    const { start, steps } = contour;
    const pen = steps.at(-1)?.to ?? start;
    const to = { x: c.x, y: -c.y };
    if (c.type === 'L' && (to.x !== pen.x || to.y !== pen.y)) steps.push({ kind: 'line', to });
    if (c.type === 'Q') steps.push({ kind: 'quadratic', control: { x: c.x1, y: -c.y1 }, to });
    if (c.type === 'C')
      steps.push({ kind: 'cubic', control1: { x: c.x1, y: -c.y1 }, control2: { x: c.x2, y: -c.y2 }, to });
  }
  return contours.filter((c) => c.steps.length > 0);
};

const read = (font: Font, id: number): Glyph => {
  const glyph = font.glyphs.get(id);
  return { advance: glyph.advanceWidth, contours: contoursOf(glyph.getPath(0, 0, font.unitsPerEm).commands) };
};

/** Parses a font file (TrueType or OpenType bytes); throws on bytes that are no font. Takes some 20 ms. */
export const faceOf = (bytes: ArrayBuffer): Face => {
  const { bytes: needed, idOf: mapped } = trimmed(bytes);
  const font = opentype.parse(needed, { lowMemory: true });
  const tables = font.position.getKerningTables('latn');
  const glyph = oncePer((id: number) => read(font, id));
  // Laid out letter by letter: the library's own layout stops at a table of this font that it does not know.
  const idOf = oncePer(
    (character: string) => mapped?.(character.codePointAt(0) ?? 0) ?? font.charToGlyph(character).index,
  );
  const kernAfter = oncePer((left: number) =>
    oncePer((right: number) => (tables === undefined ? 0 : font.position.getKerningValue(tables, left, right))),
  );
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
