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

export const letters = lettering({
  regular: font('DejaVuSansCondensed.ttf'),
  bold: font('DejaVuSansCondensed-Bold.ttf'),
});

export const exampleJob = (name: string): Job =>
  jobFrom(readFileSync(join(import.meta.dirname, '../../../examples', name, 'job.yaml'), 'utf8'));

export const jobFrom = (text: string): Job => {
  const read = readJob(text);
  if (!read.ok) throw new Error(JSON.stringify(read.faults));
  return read.job;
};

/** Bench readings of a ring of holes: every place fixed, nothing to spare. */
const ringOf = (
  name: string,
  count: number,
  radius: number,
  first: number,
  kind: string,
): readonly [features: string, readings: string] => {
  const ids = Array.from({ length: count }, (_, i) => `${name}${i + 1}`);
  const at = (i: number): string =>
    [Math.cos, Math.sin].map((f) => (radius * f(first - (2 * Math.PI * i) / count)).toFixed(3)).join(', ');
  return [
    ids.map((id) => `      ${id}: { ${kind} }`).join('\n'),
    ids.map((id, i) => `      - at ${id} = (${at(i)}) by readout`).join('\n'),
  ];
};

/** A plate of 36 counterbored holes on a circle about twelve that are tapped. */
export const crowded = (): Job => {
  const [studs, studPlaces] = ringOf('P', 36, 190, Math.PI / 2, 'kind: stud, thread: M8, diameter: 8, stands: 40');
  const [bolts, boltPlaces] = ringOf('M', 12, 140, Math.PI / 2, 'kind: hole, diameter: 11');
  return jobFrom(`job: Millstone carrier
units: mm
instruments: { readout: ± 0.02 }
faces:
  carrier:
    centre: spigot
    up: P1
    features:
      spigot: { kind: spigot, diameter: 220 }
${studs}
    readings:
      - at spigot = (0, 0) by readout
${studPlaces}
  hub:
    centre: bore
    up: M1
    features:
      bore: { kind: bore, diameter: 100 }
${bolts}
    readings:
      - at bore = (0, 0) by readout
${boltPlaces}
plate:
  between: [carrier, hub]
  material: steel
  thickness: 20
  clocking: 15 deg
  locate: { carrier: { register: 220.05, depth: 5 }, hub: { register: 99.95, depth: 4 } }
  fasten: { carrier: { as: clearance, nut: counterbored }, hub: { as: tapped, thread: M10 } }
  outline: { shape: round, margin: 12 }
`);
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

export const textsOf = (d: Drawing): readonly TextShape[] =>
  flat(d.shapes).flatMap((s) => (s.kind === 'text' ? [s] : []));
export const pathsOf = (d: Drawing): readonly Path[] =>
  flat(d.shapes).flatMap((s) => (s.kind === 'path' ? [s.path] : []));

/** Pairs of texts whose lettering (capital height) meets. */
export const meetingTexts = (d: Drawing): readonly string[] => {
  const boxes = textsOf(d)
    .filter((t) => t.text !== '')
    .map((t) => ({ t, box: shrink(textBox(t, letters), t.capital) }));
  return boxes.flatMap(({ t, box }, i) =>
    boxes.slice(i + 1).flatMap((o) => (meet(box, o.box) ? [`${t.text} | ${o.t.text}`] : [])),
  );
};

const shrink = (b: Box, capital: number): Box => ({
  left: b.left,
  right: b.right,
  bottom: b.bottom + 0.3 * capital,
  top: b.top - 0.3 * capital,
});
const meet = (a: Box, b: Box): boolean => a.left < b.right && b.left < a.right && a.bottom < b.top && b.bottom < a.top;

/** What of the drawing lies outside its own box. */
export const outside = (d: Drawing): readonly string[] => {
  const beyond = (b: Box): boolean =>
    b.left < d.box.left || b.right > d.box.right || b.bottom < d.box.bottom || b.top > d.box.top;
  return [
    ...textsOf(d)
      .filter((t) => beyond(textBox(t, letters)))
      .map((t) => t.text),
    ...pathsOf(d)
      .map(pathBox)
      .filter(beyond)
      .map((b) => JSON.stringify(b)),
  ];
};
