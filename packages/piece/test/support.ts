import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import type { Motion } from '@fayplate/core';
import { lettering } from '@fayplate/drawing';
import { readJob } from '@fayplate/job';
import { layoutFace, usedPattern } from '@fayplate/layout';
import { type Plate, designPlate, solveStack } from '@fayplate/plate';
import { locateFace } from '@fayplate/survey';

const fonts = join(dirname(createRequire(import.meta.url).resolve('dejavu-fonts-ttf/package.json')), 'ttf');
const font = (name: string): ArrayBuffer => {
  const b = readFileSync(join(fonts, name));
  return b.buffer.slice(b.byteOffset, b.byteOffset + b.byteLength);
};

export const letters = lettering({
  regular: font('DejaVuSansCondensed.ttf'),
  bold: font('DejaVuSansCondensed-Bold.ttf'),
});

const examples = join(import.meta.dirname, '../../../examples');

/** In inches and in millimetres, with dowels, slots, reliefs and cuts; each takes some ten seconds. */
export const exampleNames = ['dowelled-press', 'lift-pump', 'weir-gate'];

/** The plate of an example, from its readings. */
export const plateOf = (name: string): Plate => {
  const read = readJob(readFileSync(join(examples, name, 'job.yaml'), 'utf8'));
  if (!read.ok) throw new Error(JSON.stringify(read.faults));
  const { job } = read;
  const benches = new Map<string, Motion>();
  const used = new Map(
    job.faces.map((face) => {
      const located = locateFace({ face, instruments: job.instruments }, { next: false });
      if (located.bench !== null) benches.set(face.name, located.bench);
      const u = usedPattern(face, located, layoutFace(face, located));
      if (!u.ok) throw new Error(u.why);
      return [face.name, u.used];
    }),
  );
  const stack = job.stack === null ? null : solveStack(job.stack);
  const designed = designPlate(job, used, { stack, benches, trials: 100 });
  if (!designed.ok) throw new Error(designed.faults.join('\n'));
  return designed.plate;
};
