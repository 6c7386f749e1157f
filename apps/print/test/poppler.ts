import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, readdirSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Raster } from './raster.js';

/** Only where it is installed: a fresh machine needs no system package for the tests. */
export const hasPoppler = (): boolean => {
  try {
    execFileSync('pdfinfo', ['-v'], { stdio: 'ignore' });
    return true;
  } catch {
    return false;
  }
};

const kept = (bytes: Uint8Array): { readonly folder: string; readonly file: string } => {
  const folder = mkdtempSync(join(tmpdir(), 'fayplate-'));
  const file = join(folder, 'a.pdf');
  writeFileSync(file, bytes);
  return { folder, file };
};

/** Media boxes of all pages, points as poppler prints them (two places). */
export const popplerBoxes = (bytes: Uint8Array, pages: number): readonly (readonly number[])[] => {
  const says = execFileSync('pdfinfo', ['-box', '-f', '1', '-l', String(pages), kept(bytes).file], {
    encoding: 'utf8',
  });
  return [...says.matchAll(/MediaBox:\s+([\d.]+)\s+([\d.]+)\s+([\d.]+)\s+([\d.]+)/g)].map((m) =>
    m.slice(1).map(Number),
  );
};

/** One page rendered by poppler at exactly this resolution; its rows count from the page's upper edge. */
export const popplerRaster = (bytes: Uint8Array, page: number, dpi: number, height: number): Raster => {
  const { folder, file } = kept(bytes);
  execFileSync('pdftoppm', [
    '-r',
    String(dpi),
    '-gray',
    '-f',
    String(page),
    '-l',
    String(page),
    file,
    join(folder, 'p'),
  ]);
  const name = readdirSync(folder).find((f) => f.endsWith('.pgm')) ?? '';
  const data = readFileSync(join(folder, name));
  const [head = '', w = '0', h = '0'] =
    /^P5\s+(\d+)\s+(\d+)\s+255\s/.exec(data.subarray(0, 40).toString('latin1')) ?? [];
  const perMm = dpi / 25.4;
  const rows = Number(h);
  return {
    width: Number(w),
    height: rows,
    across: perMm,
    up: perMm,
    left: 0,
    // The last row may be a part of one: the raster starts that much below the page.
    bottom: height - rows / perMm,
    dark: (column, row) => 1 - (data[head.length + row * Number(w) + column] ?? 255) / 255,
  };
};
