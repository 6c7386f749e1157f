import { minusSign, sayNumber } from '@fayplate/core';
import { captioned } from '@fayplate/drawing';
import { type MachinistTable, machinistTable } from '@fayplate/machining';
import type { Job } from '@fayplate/job';
import type { Plate } from '@fayplate/plate';
import { describe, expect, test } from 'vitest';
import { settingPicture } from '../src/index.js';
import { crowded, design, exampleJob, flat, letters, meetingTexts, outside, textsOf } from './support.js';

const tableOf = (plate: Plate, job: Job, origin: string | null): MachinistTable => {
  const made = machinistTable(plate, job, { origin });
  if (!made.ok) throw new Error(made.faults.join('\n'));
  return made.table;
};

describe.each(['lift-pump', 'three-to-four', 'apple-mill'])('%s on the machine', (name) => {
  const plain = exampleJob(name);
  const machine = {
    step: null,
    topSpeed: null,
    screwPitch: null,
    backlash: null,
    drills: null,
    punches: null,
    reamers: null,
    dividingHead: null,
    tip: null,
    blank: null,
    allowance: null,
    safePlane: null,
    room: null,
  };
  const job: Job = { ...plain, machine: { ...machine, clamps: [{ from: { x: -10, y: 20 }, to: { x: 8, y: 60 } }] } };
  const plate = design(job).plate;

  describe.each([null, 'lower left corner'])('from %s', (origin) => {
    const table = tableOf(plate, job, origin);

    test.each(table.setups.map((s) => s.side))(
      'side %s: nothing clipped, no lettering on other lettering, both axes named, every place with its setting',
      (side) => {
        const drawing = captioned(settingPicture(plate, table, side, letters), letters);
        expect(outside(drawing)).toEqual([]);
        expect(meetingTexts(drawing)).toEqual([]);
        const words = textsOf(drawing).map((t) => t.text);
        expect(words).toEqual(expect.arrayContaining(['+X', '+Y']));
        const rows = table.rows.filter((r) => r.side === side && r.op !== 'face');
        for (const h of plate.holes) expect(words.some((w) => w.split(' ').includes(h.id))).toBe(true);
        for (const r of rows) expect(words.some((w) => w.split(' ').includes(r.hole))).toBe(true);
        // A slot's two ends are two settings under one name.
        const settings = rows.map((r) =>
          [r.set.x, r.set.y].map((v) => minusSign(sayNumber(v, { unit: table.unit, fraction: null }))).join(', '),
        );
        expect(settings.filter((s) => !words.join(' ').includes(s))).toEqual([]);
      },
    );
  });
});

describe('a plate of 48 holes', () => {
  const job = crowded();
  const plate = design(job).plate;
  const drawing = settingPicture(plate, tableOf(plate, job, null), 'B', letters);
  const shown = captioned(drawing, letters);

  test('every hole has its name in the drawing, and its setting there or in the notes', () => {
    const names = new Set(textsOf(drawing).map((t) => t.text));
    expect(plate.holes.map((h) => h.id).filter((id) => !names.has(id))).toEqual([]);
    const words = [...names, ...drawing.notes].join(' ');
    const settings = plate.holes.map((h) =>
      [h.x, h.y].map((v) => minusSign(sayNumber(v, { unit: 'mm', fraction: null }))).join(', '),
    );
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
  const machine = {
    step: null,
    topSpeed: null,
    screwPitch: null,
    backlash: null,
    drills: null,
    punches: null,
    reamers: null,
    dividingHead: null,
    tip: null,
    blank: null,
    allowance: null,
    safePlane: null,
    room: null,
  };
  const plate = design(plain).plate;
  const h = plate.holes.find((x) => x.id === 'H6') ?? { x: 0, y: 0 };
  const { left, bottom } = tableOf(plate, plain, null).blank;
  const job: Job = {
    ...plain,
    machine: {
      ...machine,
      clamps: [
        { from: { x: h.x - left - 25, y: h.y - bottom - 25 }, to: { x: h.x - left + 25, y: h.y - bottom + 25 } },
      ],
    },
  };
  const table = tableOf(plate, job, null);
  const drawing = settingPicture(plate, table, 'B', letters);
  expect(table.clear.some((c) => !c.ok)).toBe(true);
  expect(textsOf(drawing).map((t) => t.text)).toContain('H6');
  expect(drawing.notes.filter((n) => n.startsWith('No room'))).toEqual([]);
});

test('the ends of a slot are told from its middle, and a side with one place speaks of no way', () => {
  const slotted = exampleJob('apple-mill');
  const words = textsOf(
    settingPicture(design(slotted).plate, tableOf(design(slotted).plate, slotted, null), 'B', letters),
  ).map((t) => t.text);
  expect(words.filter((w) => w === 'H2 end')).toHaveLength(2);
  expect(words.filter((w) => w === 'H2')).toHaveLength(1);
  const job = exampleJob('lift-pump');
  const plate = design(job).plate;
  const notes = (side: 'A' | 'B'): string =>
    settingPicture(plate, tableOf(plate, job, null), side, letters).notes.join(' ');
  expect(notes('B')).toContain('Arrows show the way');
  expect(notes('A')).not.toContain('Arrows');
});
