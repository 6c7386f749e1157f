import { machinistTable, iso6983 } from '@fayplate/machining';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { type Job, readJob } from '@fayplate/job';
import { positionTolerances } from '@fayplate/plate';
import { describe, expect, test } from 'vitest';
import { workshopDrawing } from '../src/index.js';
import { design, exampleJob, letters, meetingTexts, outside, textsOf } from './support.js';

const A3 = { name: 'A3', width: 420, height: 297 };

const drawn = (job: Job, paper = A3) => {
  const { plate, mated } = design(job);
  const pair = mated as [(typeof mated)[0], (typeof mated)[0]];
  const made = machinistTable(plate, job, { unit: job.units }, mated);
  if (!made.ok) throw new Error(made.faults.join('\n'));
  const zones = positionTolerances(plate, job, pair);
  const thickness = [plate.thickness - 0.2, plate.thickness + 0.2] as const;
  const drawing = workshopDrawing({ plate, table: made.table, zones, job, thickness, across: null }, paper, letters);
  return {
    plate,
    table: made.table,
    zones,
    drawing,
    words: drawing === null ? [] : textsOf(drawing).map((t) => t.text),
  };
};

describe('a drawing for another shop', () => {
  const job = exampleJob('three-to-four');
  const { plate, table, zones, drawing, words } = drawn(job);

  test('every hole with the place that the table and the program have', () => {
    const made = iso6983(plate, table, { name: 'x' });
    const program = made.ok ? made.programs.map((p) => p.text).join('\n') : '';
    for (const h of plate.holes) {
      const at = words.indexOf(
        h.id,
        words.findIndex((w) => w.startsWith('Holes and bores')),
      );
      const row = table.rows.find((r) => r.hole === h.id);
      const x = (row?.side === 'A' ? -1 : 1) * (row?.set.x ?? Number.NaN);
      expect([Number(words[at + 1]), Number(words[at + 2])]).toEqual([x, row?.set.y]);
      // The program has the place as the machine is set for it.
      expect(program).toContain(`X${row?.set.x}`);
      expect(program).toContain(`Y${row?.set.y}`);
    }
  });

  // The places that the job states, and the diameter of its round outline, which a notch cuts.
  test('a slot, a pocket and a notch by their own middle, and the outline as it is before its notch', () => {
    const read = readJob(readFileSync(join(import.meta.dirname, '../../../examples/cuts.yaml'), 'utf8'));
    if (!read.ok) throw new Error(read.faults[0]?.expected);
    const cuts = drawn(read.job);
    const rows = cuts.words.findIndex((w) => w.startsWith('Holes and bores'));
    const place = (name: string): readonly number[] => {
      const cut = [...cuts.plate.holes, ...cuts.plate.bores].find((c) => c.cut?.name === name);
      const at = cuts.words.indexOf(cut?.id ?? '?', rows);
      return [Number(cuts.words[at + 1]), Number(cuts.words[at + 2])];
    };
    expect(place('oil')).toEqual([-62, 20]);
    expect(place('key')).toEqual([66, 8]);
    expect(place('lead')).toEqual([-90, 0]);
    const across = cuts.words.filter((w) => /^.(?:209|210)\b/.test(w));
    expect(across.map((w) => Number(w.slice(1)))).toEqual([210]);
  });

  test('registers with their limits, the hub with its drill’s: H7 and h7 of ISO 286-1 where the job has none', () => {
    // 50.1 H7: + 0.030; 39.9 h7: − 0.025 (ISO 286-2, tables for 30 to 50 and 50 to 80 mm).
    expect(words).toContain('⌀50.100 – 50.130');
    expect(words).toContain('⌀39.875 – 39.900');
    expect(words).toContain('M6 × 1 – 6H');
  });

  test('the zone is what the fastener leaves: H − F less the ± of the part’s hole, by hand', () => {
    // M6 bolt, class 6g: 5.974 at most (ISO 965-2). The fan's holes as measured less it, less the ± of their places on
    // either side.
    const { mated } = design(job);
    const fan = mated[0];
    const rooms = ['F1', 'F2', 'F3'].map((id) => {
      const i = fan?.pattern.ids.indexOf(id) ?? -1;
      const [xx = 0, xy = 0] = [fan?.pattern.covariance[2 * i]?.[2 * i], fan?.pattern.covariance[2 * i]?.[2 * i + 1]];
      const yy = fan?.pattern.covariance[2 * i + 1]?.[2 * i + 1] ?? 0;
      const sigma = Math.sqrt((xx + yy) / 2 + Math.hypot((xx - yy) / 2, xy));
      return 2 * (fan?.pattern.radii[i] ?? 0) - 5.974 - 4 * sigma;
    });
    expect(zones.get('H1')).toBeCloseTo(Math.floor(100 * Math.min(...rooms)) / 100, 9);
    expect(zones.get('H1')).toBe(zones.get('H3'));
    expect(zones.get('H1')).toBeGreaterThan(0.1);
    // The second register: twice the ± by which an axis is picked up again, 0.02 where nothing is said.
    expect(zones.get('C3')).toBeCloseTo(0.04, 9);
    expect(words).toContain('⌀0.04');
  });

  test('in mm by ISO in first angle, in inches by ASME without the zero before the point', () => {
    expect(words).toContain('mm; ISO 8015, ISO 1101');
    const pump = drawn(exampleJob('lift-pump'), { name: 'ANSI B', width: 431.8, height: 279.4 });
    expect(pump.words).toContain('in; ASME Y14.5');
    expect(pump.words.filter((w) => /(?:^|[^0-9])0\.\d{3,4}/.test(w))).toEqual([]);
    expect(pump.words.some((w) => /(?:^|[^0-9])\.\d{3}/.test(w))).toBe(true);
  });

  test('what the job says of it stands in the block; nothing is off the sheet, no words lie on others', () => {
    const said = drawn({
      ...job,
      drawing: {
        number: 'HL-104',
        revision: 'B',
        by: 'R. Pell',
        date: null,
        standard: 'ASME',
        edges: 0.3,
        surface: 'Ra 1.6',
      },
    });
    for (const w of ['HL-104', 'B', 'R. Pell']) expect(said.words).toContain(w);
    expect(said.words.some((w) => w.includes('broken by at most 0.30') && w.includes('Ra 1.6'))).toBe(true);
    expect(said.words).toContain('mm; ASME Y14.5');
    if (drawing === null) throw new Error('no drawing');
    expect(outside(drawing)).toEqual([]);
    expect(meetingTexts(drawing)).toEqual([]);
  });

  test('too small a sheet is none', () => {
    expect(drawn(job, { name: 'A6', width: 148, height: 105 }).drawing).toBe(null);
  });
});
