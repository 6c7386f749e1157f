import { MM_PER_INCH, doubtOfAngle, doubtOfMeasure, formatClock, formatLength } from '@fayplate/core';
import { material, materials } from '@fayplate/handbook';
import { isAngle } from '../schema/values.js';
import { type Node, join } from '../source/tree.js';
import type { Face, Instrument, Job } from '../types.js';
import { type Taken, type Context, warnAt } from './context.js';
import { againstStandard, sayLimits } from '../standard.js';
import { writtenStep } from '../reading/point.js';

/** Legal but unlikely: said, never refused. */
export const warnOfUnlikely = (context: Context, job: Job, read: readonly (readonly Taken[])[]): void => {
  const taken = read.flat();
  for (const face of job.faces) {
    sameClock(context, face);
    upElsewhere(context, face);
    unlikelyFlange(context, face);
    uncheckedStandard(context, job, face);
    unlikeStandard(context, face);
  }
  unused(context, job, taken);
  tooFine(context, job, taken);
  tooCoarse(context, job);
  unknownMaterial(context, job);
  doubtful(context, taken);
  for (const { line, raw } of taken)
    if (line.unevenPlace && line.written !== null)
      context.findings.warn({
        code: 'uneven-place',
        at: raw.offset(line.written.at),
        source: raw.source,
        found: line.written.text,
        expected: `a unit on both numbers or on neither: the one without is read in ${context.unit}`,
        path: raw.path,
      });
};

/** A unit that was taken for what was likely meant, and a ± larger than its value. */
const doubtful = (context: Context, taken: readonly Taken[]): void => {
  for (const { line, raw } of taken)
    if (line.doubt !== null)
      context.findings.warn({
        ...line.doubt,
        at: raw.offset(line.written?.at ?? 0),
        source: raw.source,
        found: line.written?.text ?? line.text,
        path: raw.path,
      });
  const walk = (node: Node, path: string): void => {
    if (node.kind === 'section')
      for (const [key, { node: inside }] of node.entries) {
        if (key !== 'readings') walk(inside, join(path, key));
      }
    else if (node.kind === 'list') node.items.forEach((item, i) => walk(item, join(path, String(i))));
    else if (node.kind === 'text' && /\d/.test(node.text.split(/±|\+\/-|\+-/, 2)[0] ?? '')) {
      const doubt = isAngle(node.text) ? doubtOfAngle(node.text) : doubtOfMeasure(node.text, context.unit);
      if (doubt !== null) context.findings.warn({ ...doubt, at: node.span.from, found: node.text, path });
    }
  };
  walk(context.tree, '');
};

/** A plate may be of anything; only what the handbook knows has a weight, speeds and a depth of thread. */
const unknownMaterial = (context: Context, job: Job): void => {
  const name = job.plate?.material ?? null;
  if (name === null || material(name) !== null) return;
  const among = materials.rows.map((m) => m.name);
  warnAt(
    context,
    ['plate', 'material'],
    'unknown-name',
    `a material of the handbook, for its weight and speeds: ${among.join(', ')}`,
    {
      found: name,
      among,
    },
  );
};

/** A plate that is made from a face whose sizes were read in one place, or in none, wants the part measured first. */
const uncheckedStandard = (context: Context, job: Job, face: Face): void => {
  const s = face.standard;
  if (s === null || s.read === 'two places' || job.plate?.between.includes(face.name) !== true) return;
  warnAt(
    context,
    ['faces', face.name, 'standard'],
    'unchecked-standard',
    `the part measured as well: the sizes of ${s.name} are held ` +
      `${s.read === 'one source' ? 'from one source alone' : 'from memory'}. Check against the part`,
  );
};

/** A size stated or read that is outside what the standard allows by more than its ±. */
const unlikeStandard = (context: Context, face: Face): void => {
  for (const { feature, value, plusMinus, limits, at } of againstStandard(face)) {
    if (value + plusMinus >= limits.least - 1e-9 && value - plusMinus <= limits.most + 1e-9) continue;
    const length = (mm: number): string => formatLength(mm, context.unit, context.unit === 'in' ? 4 : 2);
    const measured = `${length(value)} ± ${length(plusMinus)} ${context.unit}`;
    const expected =
      `${feature} as ${face.standard?.name ?? ''} has it, ${sayLimits(limits, context.unit)}: measured ${measured}. ` +
      'Another face, or a slip?';
    warnAt(
      context,
      at === null ? ['faces', face.name, 'features', feature, 'diameter'] : ['faces', face.name, 'readings'],
      'unlike-standard',
      expected,
      at === null ? {} : { found: at },
    );
  }
};

/** Two of one kind at one clock; the centre itself has no clock. */
const sameClock = (context: Context, face: Face): void => {
  const seen = new Map<string, string>();
  for (const f of face.features) {
    if (f.clock === null || f.id === face.centre) continue;
    const clock = formatClock(f.clock);
    const other = seen.get(`${f.kind} ${clock}`);
    if (other === undefined) seen.set(`${f.kind} ${clock}`, f.id);
    else
      warnAt(
        context,
        ['faces', face.name, 'features', f.id, 'clock'],
        'same-clock',
        `another clock than that of ${other}, unless they lie one behind the other`,
      );
  }
};

/** A clock is a rough hint; further from 12 than this the feature that is `up` was hardly seen there. */
const ROUGH = (40 * Math.PI) / 180;

/** `up` puts its feature straight up whatever its clock says; a plate's clocking counts from it. */
const upElsewhere = (context: Context, face: Face): void => {
  const clock = face.features.find((f) => f.id === face.up)?.clock ?? null;
  if (face.up === null || clock === null || face.standard !== null || Math.sin(clock) > Math.cos(ROUGH)) return;
  warnAt(
    context,
    ['faces', face.name, 'up'],
    'up-elsewhere',
    `a feature near 12 o'clock: ${face.up}, whose clock says ${formatClock(clock)}, is put straight up; leave ` +
      `\`up\` out to keep the face as its clocks say`,
  );
};

/** No flange that takes bolts is thinner than this, or of a part that one carries thicker, mm. */
const FLANGE = [1, 75] as const;

/**
 * Bolts are chosen by how thick the flange is: one typed in the other unit makes them an inch too short or too long.
 */
const unlikelyFlange = (context: Context, face: Face): void => {
  if (face.flange === null || face.standard !== null || (face.flange >= FLANGE[0] && face.flange <= FLANGE[1])) return;
  const typed = context.unit === 'in' ? face.flange / MM_PER_INCH : face.flange;
  const other = context.unit === 'in' ? 'mm' : 'in';
  warnAt(
    context,
    ['faces', face.name, 'flange'],
    'unlikely-flange',
    `how thick the metal is where bolts pass, ${FLANGE[0]} to ${FLANGE[1]} mm as a rule: ` +
      `${Number(typed.toFixed(3))} ${other}?`,
  );
};

const unused = (context: Context, job: Job, taken: readonly Taken[]): void => {
  const used = new Set([
    ...taken.map((t) => t.reading.instrument),
    ...job.faces.flatMap((f) => (f.places ?? []).map((p) => p.instrument)),
    job.old?.reach?.instrument ?? null,
    job.trial?.instrument ?? null,
  ]);
  if (taken.length === 0) return; // a job that has only been begun
  for (const name of job.instruments.keys())
    if (!used.has(name))
      warnAt(context, ['instruments', name], 'unused-instrument', `some reading by ${name}: none is taken with it`, {
        key: true,
      });
};

/** No jaws or thimble are as bad as this, mm: more likely the ± was meant in mm and the file is in inches. */
const COARSE = 0.5;

const tooCoarse = (context: Context, job: Job): void => {
  for (const { name, measures, each } of job.instruments.values())
    if (measures === 'length' && /calip|vernier|microm|mike/i.test(name) && each > COARSE)
      warnAt(
        context,
        ['instruments', name],
        'coarse-instrument',
        'a ± in its own unit, such as ± 0.002 in or ± 0.05 mm: this is more than half a millimetre, and the places ' +
          'will be no better',
      );
};

/** Fractions are written in lowest terms, so that a few readings do not show the finest division. */
const ENOUGH = 6;

/** A ± below half the finest step that an instrument's readings are written to claims more than was read. */
const tooFine = (context: Context, job: Job, taken: readonly Taken[]): void => {
  const finest = new Map<string, number>();
  const count = new Map<string, number>();
  for (const { line } of taken) {
    const step =
      line.instrument === null || line.written === null
        ? null
        : writtenStep(line.written.text, line.grammar.measures, job.units);
    if (step === null || line.instrument === null) continue;
    count.set(line.instrument.text, (count.get(line.instrument.text) ?? 0) + 1);
    finest.set(line.instrument.text, Math.min(step, finest.get(line.instrument.text) ?? Infinity));
  }
  const short = (claimed: number, name: string): boolean =>
    (count.get(name) ?? 0) >= ENOUGH && claimed < ((finest.get(name) ?? 0) / 2) * (1 - 1e-9);
  const words = (i: Instrument): string =>
    `a ± of at least half of what ${i.name} is read to: its readings are written no finer than that`;
  for (const i of job.instruments.values())
    if (short(i.each, i.name)) warnAt(context, ['instruments', i.name], 'fine-instrument', words(i));
  for (const { line, raw, reading } of taken) {
    const i = reading.instrument === null ? undefined : job.instruments.get(reading.instrument);
    if (i === undefined || line.plusMinus === null || !short(line.plusMinus, i.name)) continue;
    context.findings.warn({
      code: 'fine-instrument',
      at: raw.offset(0),
      source: raw.source,
      found: reading.text,
      expected: words(i),
      path: raw.path,
    });
  }
};
