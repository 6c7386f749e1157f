import { existsSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import type { Lettering } from '@fayplate/drawing';

const names = { regular: 'DejaVuSansCondensed.ttf', bold: 'DejaVuSansCondensed-Bold.ttf' } as const;

/**
 * The fonts lie beside the bundle; run from the sources they are the package's own (and only then is Node's slow module
 * of modules loaded).
 */
const folder = async (): Promise<string> => {
  const beside = join(import.meta.dirname, 'fonts');
  if (existsSync(beside)) return beside;
  const { createRequire } = await import('node:module');
  return join(dirname(createRequire(import.meta.url).resolve('dejavu-fonts-ttf/package.json')), 'ttf');
};

const bytes = (path: string): ArrayBuffer => {
  const b = readFileSync(path);
  return b.buffer.slice(b.byteOffset, b.byteOffset + b.byteLength);
};

let kept: Lettering | null = null;

/** Letters as outlines; the font is parsed once, and only when something is drawn. */
export const loadLettering = async (): Promise<Lettering> => {
  if (kept === null) {
    const { lettering } = await import('@fayplate/drawing');
    const from = await folder();
    kept = lettering({ regular: bytes(join(from, names.regular)), bold: bytes(join(from, names.bold)) });
  }
  return kept;
};
