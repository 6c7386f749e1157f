import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Block } from '@fayplate/core';
import { type Shape, lettering } from '@fayplate/drawing';
import { press, sheets } from '@fayplate/print';
import type { World } from '../src/index.js';
import type { PrintSection } from '../src/printing.js';

export const root = join(import.meta.dirname, '../../..');

/** The job of an example. */
export const example = (name: string): string => readFileSync(join(root, 'examples', name, 'job.yaml'), 'utf8');

const font = (name: string): ArrayBuffer => {
  const bytes = readFileSync(join(import.meta.dirname, '../node_modules/dejavu-fonts-ttf/ttf', name));
  return bytes.buffer.slice(bytes.byteOffset, bytes.byteOffset + bytes.byteLength);
};

export const letters = lettering({
  regular: font('DejaVuSansCondensed.ttf'),
  bold: font('DejaVuSansCondensed-Bold.ttf'),
});

/** All that an app hands in. */
export const world: World = {
  lettering: () => Promise.resolve(letters),
  sheets: () => Promise.resolve(sheets),
  press: () => Promise.resolve(press(() => Promise.resolve(letters))),
};

/** A world that has nothing: whoever asks it for something is told so. */
export const bareWorld: World = {
  lettering: () => Promise.reject(new Error('no letters')),
  sheets: () => Promise.reject(new Error('no sheets')),
  press: () => Promise.reject(new Error('no press')),
};

const lettersIn = (shape: Shape): readonly string[] =>
  shape.kind === 'text' ? [shape.text] : shape.kind === 'group' ? shape.shapes.flatMap(lettersIn) : [];

const textsOf = (b: Block): readonly string[] => {
  if (b.kind === 'list') return b.items;
  if (b.kind !== 'table') return [b.text];
  return [b.caption ?? '', ...b.columns.map((c) => c.title), ...(b.groups ?? []).map((g) => g.title), ...b.rows.flat()];
};

/** Every text of a printed section: its reports, its pictures and what is lettered on them. */
export const textsIn = (s: PrintSection): readonly string[] => [
  s.title,
  ...s.items.flatMap((i) =>
    i.kind === 'report'
      ? i.report.flatMap(textsOf)
      : [i.picture.title, ...i.picture.notes, ...i.picture.shapes.flatMap(lettersIn)],
  ),
];
