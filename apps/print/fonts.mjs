// Cuts the fonts down to the letters that drawings are made with, once for every app that ships them: the same glyphs,
// the same bytes.
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import subsetFont from 'subset-font';

const folder = join(dirname(createRequire(import.meta.url).resolve('dejavu-fonts-ttf/package.json')), 'ttf');

/**
 * The files by name, as bytes: outlines, widths and kerning of `ranges`, without what nothing here reads (hints,
 * substitutions, names).
 */
export const cutFonts = async (ranges) => {
  const text = ranges
    .flatMap(([from, to]) => Array.from({ length: to - from + 1 }, (_, i) => String.fromCodePoint(from + i)))
    .join('');
  const files = new Map();
  for (const name of ['DejaVuSansCondensed.ttf', 'DejaVuSansCondensed-Bold.ttf'])
    files.set(
      name,
      await subsetFont(readFileSync(join(folder, name)), text, {
        targetFormat: 'truetype',
        noHinting: true,
        noLayoutClosure: true,
        keepFeatures: ['kern'],
        dropTables: ['GSUB', 'GDEF'],
      }),
    );
  return files;
};
