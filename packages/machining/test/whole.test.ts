import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { distance } from '@fayplate/core';
import { type Job, readJob } from '@fayplate/job';
import { layoutFace, usedPattern } from '@fayplate/layout';
import { type MatedFace, type Plate, designPlate, solveStack } from '@fayplate/plate';
import { locateFace } from '@fayplate/survey';
import { beforeAll, describe, expect, test } from 'vitest';
import { iso6983, machinistTable, prove, stepSolid } from '../src/index.js';
import { run } from './program/interpreter.js';
import { readSolid } from './step/kernel.js';
import { volumeByFormula } from './step/volume.js';

/** The project's own example, from its readings to the machine: what a person would do, room by room. */
const jobText = readFileSync(join(import.meta.dirname, '../../../examples/lift-pump/job.yaml'), 'utf8');

const parse = (text: string): Job => {
  const read = readJob(text);
  if (!read.ok) throw new Error(JSON.stringify(read.faults));
  return read.job;
};

let job: Job;
let plate: Plate;
let mated: readonly MatedFace[];

beforeAll(() => {
  job = parse(jobText);
  const used = new Map(
    job.faces.map((face) => {
      const located = locateFace({ face, instruments: job.instruments }, { next: false });
      const u = usedPattern(face, located, layoutFace(face, located));
      if (!u.ok) throw new Error(u.why);
      return [face.name, u.used];
    }),
  );
  const designed = designPlate(job, used, { stack: job.stack === null ? null : solveStack(job.stack), trials: 200 });
  if (!designed.ok) throw new Error(designed.faults.join('\n'));
  ({ plate, mated } = designed);
});

const tableOf = () => {
  const made = machinistTable(plate, job, {}, mated);
  if (!made.ok) throw new Error(made.faults.join('\n'));
  return made.table;
};

describe('the lift pump, at the machine', () => {
  test('every hole of the plate is drilled once, where it belongs', () => {
    const table = tableOf();
    for (const h of plate.holes) {
      const drilled = table.rows.filter((r) => r.hole === h.id && r.op === 'drill');
      expect(drilled.map((r) => r.toolDiameter)).toEqual([h.diameter]);
      expect(distance(drilled[0]!, h)).toBeLessThan(1e-9);
    }
    const made = iso6983(plate, table);
    expect(made.ok).toBe(true);
    const drilled = (made.ok ? made.programs : []).flatMap((p) =>
      run(p.text).drilled.map((d) => ({ ...d, x: p.side === 'A' ? -d.x : d.x })),
    );
    for (const h of plate.holes)
      expect(drilled.some((d) => Math.hypot(d.x - h.x, d.y - h.y) < 0.002 && -d.bottom > plate.thickness)).toBe(true);
  });

  test('its solid has the volume of the formula', async () => {
    const made = stepSolid(plate);
    const solid = await readSolid(made.ok ? made.text : '');
    expect(solid.valid).toBe(true);
    expect(Math.abs(solid.volume / volumeByFormula(plate, plate.outline.area) - 1)).toBeLessThan(1e-6);
  });

  test('measured as planned, a good plate goes on and one with a hole 1 mm off does not, and says which to ease', () => {
    const { plan } = prove(job, plate, mated, { trials: 100 });
    const written = (off: string | null): Job => {
      const at = (id: string) => {
        const h = [...plate.holes, ...plate.bores].find((c) => c.id === id)!;
        return id === off ? { ...h, x: h.x + 1 } : h;
      };
      const lines = plan.readings.map(({ reading }) => {
        const [kind, a, b] = reading.split(' ') as [string, string, string?];
        const p = at(a);
        const q = b === undefined ? p : at(b);
        const radii = (p.diameter + q.diameter) / 2;
        const value = kind === 'dia' ? p.diameter : distance(p, q) + (kind === 'over' ? radii : -radii);
        return `    - ${reading} = ${value.toFixed(3)} mm by metric`;
      });
      return parse(`${jobText}\ndrilled:\n  readings:\n${lines.join('\n')}\n`);
    };
    const good = prove(written(null), plate, mated, { trials: 300 });
    expect(good.ok).toBe(true);
    expect(good.goesOn.get('pump')!.probability).toBeGreaterThan(0.9);
    const bad = prove(written('H3'), plate, mated, { trials: 300 });
    expect(bad.ok).toBe(false);
    expect(bad.goesOn.get('pump')!.ease[0]!.eases.map((e) => e.hole)).toContain('H3');
    expect(bad.holes.find((h) => h.id === 'H3')!.ok).toBe(false);
  });
});
