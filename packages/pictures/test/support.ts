import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { type Box, type Path, pathBox } from '@fayplate/core';
import { type Drawing, type Shape, type TextShape, lettering, textBox } from '@fayplate/drawing';
import { type Job, readJob } from '@fayplate/job';
import { layoutFace, usedPattern } from '@fayplate/layout';
import { type MatedFace, type Plate, designPlate, solveStack } from '@fayplate/plate';
import { locateFace } from '@fayplate/survey';

const fonts = join(dirname(createRequire(import.meta.url).resolve('dejavu-fonts-ttf/package.json')), 'ttf');
const font = (name: string): ArrayBuffer => {
  const b = readFileSync(join(fonts, name));
  return b.buffer.slice(b.byteOffset, b.byteOffset + b.byteLength);
};

export const letters = lettering({ regular: font('DejaVuSansCondensed.ttf'), bold: font('DejaVuSansCondensed-Bold.ttf') });

export const exampleJob = (name: string): Job => jobFrom(readFileSync(join(import.meta.dirname, '../../../examples', name, 'job.yaml'), 'utf8'));

export const jobFrom = (text: string): Job => {
  const read = readJob(text);
  if (!read.ok) throw new Error(JSON.stringify(read.faults));
  return read.job;
};

/** A job taken from its readings to its plate. */
export const design = (job: Job): { readonly plate: Plate; readonly mated: readonly MatedFace[] } => {
  const used = new Map(
    job.faces.map((face) => {
      const located = locateFace({ face, instruments: job.instruments }, { next: false });
      const u = usedPattern(face, located, layoutFace(face, located));
      if (!u.ok) throw new Error(u.why);
      return [face.name, u.used];
    }),
  );
  const designed = designPlate(job, used, { stack: job.stack === null ? null : solveStack(job.stack), trials: 100 });
  if (!designed.ok) throw new Error(designed.faults.join('\n'));
  return designed;
};

export const flat = (shapes: readonly Shape[]): readonly Exclude<Shape, { kind: 'group' }>[] =>
  shapes.flatMap((s) => (s.kind === 'group' ? flat(s.shapes) : [s]));

export const textsOf = (d: Drawing): readonly TextShape[] => flat(d.shapes).flatMap((s) => (s.kind === 'text' ? [s] : []));
export const pathsOf = (d: Drawing): readonly Path[] => flat(d.shapes).flatMap((s) => (s.kind === 'path' ? [s.path] : []));

/** Pairs of texts whose lettering (capital height) meets. */
export const meetingTexts = (d: Drawing): readonly string[] => {
  const boxes = textsOf(d).filter((t) => t.text !== '').map((t) => ({ t, box: shrink(textBox(t, letters), t.capital) }));
  return boxes.flatMap(({ t, box }, i) => boxes.slice(i + 1).flatMap((o) => (meet(box, o.box) ? [`${t.text} | ${o.t.text}`] : [])));
};

const shrink = (b: Box, capital: number): Box => ({ left: b.left, right: b.right, bottom: b.bottom + 0.3 * capital, top: b.top - 0.3 * capital });
const meet = (a: Box, b: Box): boolean => a.left < b.right && b.left < a.right && a.bottom < b.top && b.bottom < a.top;

/** What of the drawing lies outside its own box. */
export const outside = (d: Drawing): readonly string[] => {
  const beyond = (b: Box): boolean => b.left < d.box.left || b.right > d.box.right || b.bottom < d.box.bottom || b.top > d.box.top;
  return [
    ...textsOf(d).filter((t) => beyond(textBox(t, letters))).map((t) => t.text),
    ...pathsOf(d).map(pathBox).filter(beyond).map((b) => JSON.stringify(b)),
  ];
};
