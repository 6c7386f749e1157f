import type { Glyph, GlyphContour, Lettering, Weight } from '@fayplate/drawing';

/** A glyph's name on the page: which of the document's fonts, and its code there. */
interface GlyphCode {
  readonly font: string;
  readonly code: number;
}

export interface BookFont {
  readonly name: string;
  readonly weight: Weight;
  readonly glyphs: readonly { readonly id: number; readonly text: string }[];
}

/**
 * Every glyph that a document uses, each kept once: PDF fonts of drawn outlines (type 3), so that letters are the same
 * shapes as in SVG, files stay small and text can be searched.
 */
export interface GlyphBook {
  readonly codeOf: (id: number, text: string, weight: Weight) => GlyphCode;
  readonly fonts: () => readonly BookFont[];
}

const MOST = 250;

export const glyphBook = (): GlyphBook => {
  const codes: Readonly<Record<Weight, Map<number, GlyphCode>>> = { regular: new Map(), bold: new Map() };
  const fonts: { name: string; weight: Weight; glyphs: { id: number; text: string }[] }[] = [];
  return {
    codeOf: (id, text, weight) => {
      const known = codes[weight].get(id);
      if (known !== undefined) return known;
      let font = fonts.findLast((f) => f.weight === weight);
      if (font === undefined || font.glyphs.length >= MOST) {
        font = { name: `F${fonts.length}`, weight, glyphs: [] };
        fonts.push(font);
      }
      const fresh = { font: font.name, code: font.glyphs.length };
      font.glyphs.push({ id, text });
      codes[weight].set(id, fresh);
      return fresh;
    },
    fonts: () => fonts,
  };
};

const short = (v: number): string => String(Math.round(v * 100) / 100 + 0);

const contourOps = (contour: GlyphContour): string => {
  let pen = contour.start;
  const xy = (p: { readonly x: number; readonly y: number }): string => `${short(p.x)} ${short(p.y)}`;
  const steps = contour.steps.map((s) => {
    const from = pen;
    pen = s.to;
    if (s.kind === 'line') return `${xy(s.to)} l`;
    if (s.kind === 'cubic') return `${xy(s.control1)} ${xy(s.control2)} ${xy(s.to)} c`;
    // A quadratic curve is the cubic whose handles reach two thirds of the way to its control point.
    const toward = (p: { readonly x: number; readonly y: number }) => ({
      x: p.x + (2 / 3) * (s.control.x - p.x),
      y: p.y + (2 / 3) * (s.control.y - p.y),
    });
    return `${xy(toward(from))} ${xy(toward(s.to))} ${xy(s.to)} c`;
  });
  return `${xy(contour.start)} m ${steps.join(' ')} h`;
};

/**
 * What a type 3 font draws for one glyph, font units: its advance, then its outline filled. `d0` rather than `d1`, for
 * readers keep a
 * `d1` glyph as a picture and set it on whole pixels, which spoils the spacing on a screen; it takes the colour in
 * force either way.
 */
export const glyphProc = (glyph: Glyph): string => {
  const outline = glyph.contours.map(contourOps).join('\n');
  return `${short(glyph.advance)} 0 d0\n${outline}${outline === '' ? '' : '\nf'}`;
};

const utf16 = (text: string): string =>
  Array.from({ length: text.length }, (_, i) => text.charCodeAt(i).toString(16).padStart(4, '0')).join('');
const hex = (code: number): string => code.toString(16).padStart(2, '0');

/** The map from codes back to text, so that a reader can search and copy (ISO 32000-1, 9.10.3). */
export const toUnicode = (font: BookFont): string => {
  const lines = font.glyphs.map((g, code) => `<${hex(code)}> <${utf16(g.text)}>`);
  const blocks: string[] = [];
  for (let i = 0; i < lines.length; i += 100) {
    const part = lines.slice(i, i + 100);
    blocks.push(`${part.length} beginbfchar\n${part.join('\n')}\nendbfchar`);
  }
  return [
    '/CIDInit /ProcSet findresource begin 12 dict begin begincmap',
    '/CIDSystemInfo << /Registry (Adobe) /Ordering (UCS) /Supplement 0 >> def',
    '/CMapName /Adobe-Identity-UCS def /CMapType 2 def',
    '1 begincodespacerange <00> <ff> endcodespacerange',
    ...blocks,
    'endcmap CMapName currentdict /CMap defineresource pop end end',
  ].join('\n');
};

export const advanceOf = (lettering: Lettering, font: BookFont): readonly number[] =>
  font.glyphs.map((g) => lettering.glyph(g.id, font.weight).advance);
