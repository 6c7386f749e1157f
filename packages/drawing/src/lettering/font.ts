import opentype, { type Command, type Font } from 'opentype.js';
import type { Glyph, GlyphContour } from '../types.js';
import { type Face, type FontSource, faceFrom } from './face.js';
import { trimmed } from './tables.js';

/** opentype.js draws y down, and a line of no length after many a curve. No zero of ours has a sign. */
const contoursOf = (commands: readonly Command[]): readonly GlyphContour[] => {
  const contours: { start: { x: number; y: number }; steps: GlyphContour['steps'][number][] }[] = [];
  for (const c of commands) {
    if (c.type === 'M') contours.push({ start: { x: c.x, y: 0 - c.y }, steps: [] });
    const contour = contours.at(-1);
    if (contour === undefined || c.type === 'M' || c.type === 'Z') continue;
    const { start, steps } = contour;
    const pen = steps.at(-1)?.to ?? start;
    const to = { x: c.x, y: 0 - c.y };
    if (c.type === 'L' && (to.x !== pen.x || to.y !== pen.y)) steps.push({ kind: 'line', to });
    if (c.type === 'Q') steps.push({ kind: 'quadratic', control: { x: c.x1, y: 0 - c.y1 }, to });
    if (c.type === 'C')
      steps.push({ kind: 'cubic', control1: { x: c.x1, y: 0 - c.y1 }, control2: { x: c.x2, y: 0 - c.y2 }, to });
  }
  return contours.filter((c) => c.steps.length > 0);
};

const read = (font: Font, id: number): Glyph => {
  const glyph = font.glyphs.get(id);
  return { advance: glyph.advanceWidth, contours: contoursOf(glyph.getPath(0, 0, font.unitsPerEm).commands) };
};

/** A font file (TrueType or OpenType bytes); throws on bytes that are no font. Takes some 20 ms. */
export const fontOf = (bytes: ArrayBuffer): FontSource => {
  const { bytes: needed, idOf } = trimmed(bytes);
  const font = opentype.parse(needed, { lowMemory: true });
  const tables = font.position.getKerningTables('latn');
  return {
    // Laid out letter by letter: the library's own layout stops at a table of this font that it does not know.
    idOf: idOf ?? ((code) => font.charToGlyph(String.fromCodePoint(code)).index),
    glyph: (id) => read(font, id),
    kern: (left, right) => (tables === undefined ? 0 : font.position.getKerningValue(tables, left, right)),
  };
};

export const faceOf = (bytes: ArrayBuffer): Face => faceFrom(fontOf(bytes));
