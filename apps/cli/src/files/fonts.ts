import { existsSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { createRequire } from 'node:module';
import type { Lettering } from '@fayplate/drawing';

const names = { regular: 'DejaVuSansCondensed.ttf', bold: 'DejaVuSansCondensed-Bold.ttf' } as const;

/** The fonts lie beside the bundle; run from the sources they are the package's own. */
const folder = (): string => {
  const beside = join(import.meta.dirname, 'fonts');
  if (existsSync(beside)) return beside;
  return join(dirname(createRequire(import.meta.url).resolve('dejavu-fonts-ttf/package.json')), 'ttf');
};

const bytes = (file: string): ArrayBuffer => {
  const b = readFileSync(join(folder(), file));
  return b.buffer.slice(b.byteOffset, b.byteOffset + b.byteLength);
};

let kept: Lettering | null = null;

/** Letters as outlines; the font is parsed once, and only when something is drawn. */
export const loadLettering = async (): Promise<Lettering> => {
  if (kept === null) {
    const { lettering } = await import('@fayplate/drawing');
    kept = lettering({ regular: bytes(names.regular), bold: bytes(names.bold) });
  }
  return kept;
};
