import { layoutFace, usedPattern } from '@fayplate/layout';
import { type MachinistTable, machinistTable } from '@fayplate/machining';
import type { Job } from '@fayplate/job';
import { type Plate, designPlate, solveStack } from '@fayplate/plate';
import { locateFace } from '@fayplate/survey';
import { describe, expect, test } from 'vitest';
import { settingPicture } from '../src/index.js';
import { exampleJob, letters, meetingTexts, outside, textsOf } from './support.js';

const plateOf = (job: Job): Plate => {
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
  return designed.plate;
};

const tableOf = (plate: Plate, job: Job, origin: string | null): MachinistTable => {
  const made = machinistTable(plate, job, { origin });
  if (!made.ok) throw new Error(made.faults.join('\n'));
  return made.table;
};

describe.each(['lift-pump', 'three-to-four'])('%s on the machine', (name) => {
  const plain = exampleJob(name);
  const machine = { step: null, topSpeed: null, screwPitch: null, backlash: null, drills: null, punches: null, reamers: null, dividingHead: null, tip: null, blank: null };
  const job: Job = { ...plain, machine: { ...machine, clamps: [{ from: { x: -10, y: 20 }, to: { x: 8, y: 60 } }] } };
  const plate = plateOf(job);

  describe.each([null, 'lower left corner'])('from %s', (origin) => {
    const table = tableOf(plate, job, origin);

    test.each(table.setups.map((s) => s.side))('side %s: nothing clipped, no lettering on other lettering, both axes named, every place with its setting', (side) => {
      const drawing = settingPicture(plate, table, side, letters);
      expect(outside(drawing)).toEqual([]);
      expect(meetingTexts(drawing)).toEqual([]);
      const words = textsOf(drawing).map((t) => t.text);
      expect(words).toEqual(expect.arrayContaining(['+X', '+Y']));
      for (const r of table.rows.filter((r) => r.side === side)) expect(words.some((w) => w.split(' ').includes(r.hole))).toBe(true);
    });
  });
});
