import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { type Weight, lettering } from '../src/index.js';

export const fontBytes = (name: string): ArrayBuffer => {
  const bytes = readFileSync(createRequire(import.meta.url).resolve(`dejavu-fonts-ttf/ttf/${name}.ttf`));
  return bytes.buffer.slice(bytes.byteOffset, bytes.byteOffset + bytes.byteLength);
};

export const letters = lettering({
  regular: fontBytes('DejaVuSansCondensed'),
  bold: fontBytes('DejaVuSansCondensed-Bold'),
});

type Point = { readonly x: number; readonly y: number };

/**
 * Outlines of a text, mm: each contour's start and the end of each of its steps, the text's own start at the origin.
 */
export const outline = (
  text: string,
  capital: number,
  weight: Weight = 'regular',
): { readonly contours: readonly (readonly Point[])[]; readonly width: number } => {
  const { glyphs, scale, width } = letters.lay(text, capital, weight);
  const contours = glyphs.flatMap((g) =>
    letters
      .glyph(g.id, weight)
      .contours.map((c) =>
        [c.start, ...c.steps.map((s) => s.to)].map((p) => ({ x: p.x * scale + g.at, y: p.y * scale })),
      ),
  );
  return { contours, width };
};
