import { minusSign, sayNumber } from '@fayplate/core';
import { captioned } from '@fayplate/drawing';
import { type MachinistTable, machinistTable } from '@fayplate/machining';
import type { Job } from '@fayplate/job';
import type { Plate } from '@fayplate/plate';
import { describe, expect, test } from 'vitest';
import { settingPicture } from '../src/index.js';
import { design, exampleJob, letters, meetingTexts, outside, textsOf } from './support.js';

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
