import { minusSign, sayNumber } from '@fayplate/core';
import { captioned } from '@fayplate/drawing';
import { type MachinistTable, machinistTable } from '@fayplate/machining';
import type { Job } from '@fayplate/job';
import type { Plate } from '@fayplate/plate';
import { describe, expect, test } from 'vitest';
import { settingPicture } from '../src/index.js';
import { design, exampleJob, flat, jobFrom, letters, meetingTexts, outside, textsOf } from './support.js';

const tableOf = (plate: Plate, job: Job, origin: string | null): MachinistTable => {
  const made = machinistTable(plate, job, { origin });
  if (!made.ok) throw new Error(made.faults.join('\n'));
  return made.table;
};

describe.each(['lift-pump', 'three-to-four', 'apple-mill'])('%s on the machine', (name) => {
  const plain = exampleJob(name);
  const machine = { step: null, topSpeed: null, screwPitch: null, backlash: null, drills: null, punches: null, reamers: null, dividingHead: null, tip: null, blank: null };
  const job: Job = { ...plain, machine: { ...machine, clamps: [{ from: { x: -10, y: 20 }, to: { x: 8, y: 60 } }] } };
  const plate = design(job).plate;

  describe.each([null, 'lower left corner'])('from %s', (origin) => {
    const table = tableOf(plate, job, origin);

    test.each(table.setups.map((s) => s.side))('side %s: nothing clipped, no lettering on other lettering, both axes named, every place with its setting', (side) => {
      const drawing = captioned(settingPicture(plate, table, side, letters), letters);
      expect(outside(drawing)).toEqual([]);
      expect(meetingTexts(drawing)).toEqual([]);
      const words = textsOf(drawing).map((t) => t.text);
      expect(words).toEqual(expect.arrayContaining(['+X', '+Y']));
      const rows = table.rows.filter((r) => r.side === side);
      for (const r of rows) expect(words.some((w) => w.split(' ').includes(r.hole))).toBe(true);
      // A slot's two ends are two settings under one name.
      const settings = rows.map((r) => [r.set.x, r.set.y].map((v) => minusSign(sayNumber(v, { unit: table.unit, fraction: null }))).join(', '));
      expect(settings.filter((s) => !words.join(' ').includes(s))).toEqual([]);
    });
  });
});

/** Bench readings of a ring of holes: every place fixed, nothing to spare. */
const ringOf = (name: string, count: number, radius: number, first: number, kind: string): readonly [features: string, readings: string] => {
  const ids = Array.from({ length: count }, (_, i) => `${name}${i + 1}`);
  const at = (i: number): string => [Math.cos, Math.sin].map((f) => (radius * f(first - (2 * Math.PI * i) / count)).toFixed(3)).join(', ');
  return [ids.map((id) => `      ${id}: { ${kind} }`).join('\n'), ids.map((id, i) => `      - at ${id} = (${at(i)}) by readout`).join('\n')];
};

const crowded = (): Job => {
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

describe('a plate of 48 holes', () => {
  const job = crowded();
  const plate = design(job).plate;
  const drawing = settingPicture(plate, tableOf(plate, job, null), 'B', letters);
  const shown = captioned(drawing, letters);

  test('every hole has its name in the drawing, and its setting there or in the notes', () => {
    const names = new Set(textsOf(drawing).map((t) => t.text));
    expect(plate.holes.map((h) => h.id).filter((id) => !names.has(id))).toEqual([]);
    const words = [...names, ...drawing.notes].join(' ');
    const settings = plate.holes.map((h) => [h.x, h.y].map((v) => minusSign(sayNumber(v, { unit: 'mm', fraction: null }))).join(', '));
    expect(settings.filter((s) => !words.includes(s))).toEqual([]);
  });

  test('no lettering on other lettering, and no white ground painted over it', () => {
    expect(meetingTexts(shown)).toEqual([]);
    const order = flat(drawing.shapes);
    const firstName = order.findIndex((s) => s.kind === 'text' && s.text.startsWith('H'));
    const grounds = order.flatMap((s, i) => (s.kind === 'path' && s.stroke === null && s.fill === 1 ? [i] : []));
    expect(Math.max(-1, ...grounds)).toBeLessThan(firstName);
  });
});

test('a hole under a clamp is named all the same', () => {
  const plain = exampleJob('apple-mill');
  const machine = { step: null, topSpeed: null, screwPitch: null, backlash: null, drills: null, punches: null, reamers: null, dividingHead: null, tip: null, blank: null };
  const plate = design(plain).plate;
  const h = plate.holes.find((x) => x.id === 'H6') ?? { x: 0, y: 0 };
  const { left, bottom } = tableOf(plate, plain, null).blank;
  const job: Job = { ...plain, machine: { ...machine, clamps: [{ from: { x: h.x - left - 25, y: h.y - bottom - 25 }, to: { x: h.x - left + 25, y: h.y - bottom + 25 } }] } };
  const table = tableOf(plate, job, null);
  const drawing = settingPicture(plate, table, 'B', letters);
  expect(table.clear.some((c) => !c.ok)).toBe(true);
  expect(textsOf(drawing).map((t) => t.text)).toContain('H6');
  expect(drawing.notes.filter((n) => n.startsWith('No room'))).toEqual([]);
});

test('the ends of a slot are told from its middle, and a side with one place speaks of no way', () => {
  const slotted = exampleJob('apple-mill');
  const words = textsOf(settingPicture(design(slotted).plate, tableOf(design(slotted).plate, slotted, null), 'B', letters)).map((t) => t.text);
  expect(words.filter((w) => w === 'H2 end')).toHaveLength(2);
  expect(words.filter((w) => w === 'H2')).toHaveLength(1);
  const job = exampleJob('lift-pump');
  const plate = design(job).plate;
  const notes = (side: 'A' | 'B'): string => settingPicture(plate, tableOf(plate, job, null), side, letters).notes.join(' ');
  expect(notes('B')).toContain('Arrows show the way');
  expect(notes('A')).not.toContain('Arrows');
});
