import { speechFor } from '@fayplate/core';
import type { PartWork } from '@fayplate/job';
import { describe, expect, test } from 'vitest';
import { type Plate, plateReport, workReport } from '../src/index.js';
import { bench, fasten, plateOf, ring, soundBench } from './support/plate.js';

const work = (more: Partial<PartWork>): PartWork => ({
  name: 'a',
  face: 'motor',
  kind: 'open',
  features: ['P1'],
  from: new Map([['P1', 11]]),
  to: { value: 14, plusMinus: null },
  link: null,
  done: false,
  why: null,
  ...more,
});
const withWork = (w: PartWork) => {
  const b = soundBench();
  return plateOf({ ...b, job: { ...b.job, work: [w], asMeasured: b.job.faces } });
};

describe('work on a part', () => {
  test('a hole opened out: the joint has the room of the larger hole, and the metal left is told', () => {
    const plate = withWork(work({}));
    const [o] = plate.work ?? [];
    // P1 of the motor at 12 o'clock, 97.5 from the centre; the spigot of 60 lies 97.5 − 30 − 7 = 60.5 from its wall.
    expect(o?.places[0]).toMatchObject({ feature: 'P1', from: 11, hole: 'H6' });
    expect(o?.places[0]?.x).toBeCloseTo(0, 9);
    expect(o?.places[0]?.y).toBeCloseTo(97.5, 9);
    expect(o?.left?.value).toBeCloseTo(60.5, 9);
    expect(o?.left?.limit).toBeCloseTo(7, 9);
    const passes = plate.checks.find((c) => c.id === 'bolt-passes-part' && c.of.includes('motor.P1'));
    // M10, class 6g: 9.968 at most (ISO 965-2).
    expect(passes?.value).toBeCloseTo(14 - 9.968, 6);
  });
  test('too little metal fails the verdict’s requirement, in words', () => {
    const b = bench(
      { spots: ring(3, 60, 0, { kind: 'stud', thread: 'M8', d: 8, stands: 28.5 }) },
      {
        spots: {
          A: { kind: 'hole', thread: 'M8', d: 9, at: { x: 30, y: 0 } },
          B: { kind: 'hole', thread: 'M8', d: 9, at: { x: 42, y: 0 } },
        },
      },
      { fasten: new Map([['motor', fasten({ as: 'tapped', thread: 'M8' })]]) },
    );
    const plate = plateOf({
      ...b,
      job: { ...b.job, work: [work({ features: ['A'], to: { value: 11, plusMinus: null } })] },
    });
    // 12 between centres, less 4.5 and 5.5: 2, where half of 11 is wanted.
    const metal = plate.requirements.find((r) => r.id === 'work-metal');
    expect(metal).toMatchObject({ state: 'fails', limit: 5.5 });
    expect(metal?.value).toBeCloseTo(2, 9);
    expect(metal?.because).toContain('leaves 2.0 mm of metal at A and B');
  });
  test('of a stud cut back: what is left past the seat of its nut, and what nut and one thread want', () => {
    const cutTo = (to: number): Plate => {
      const b = soundBench();
      const faces = b.job.faces.map((f) => ({
        ...f,
        features: f.features.map((x) => (x.kind === 'stud' ? { ...x, stands: to } : x)),
      }));
      const studs = faces.flatMap((f) => f.features.filter((x) => x.kind === 'stud').map((x) => x.id));
      const cut = work({ face: 'pump', kind: 'shorten', features: studs, to: { value: to, plusMinus: null } });
      // The nuts stand on the plate, so that no counterbore follows the stud down.
      const fastened = new Map([...(b.job.plate?.fasten ?? []), ['pump', fasten({ head: 'nut' })] as const]);
      const plate = b.job.plate === null ? null : { ...b.job.plate, fasten: fastened };
      return plateOf({ ...b, job: { ...b.job, faces, plate, work: [cut] } });
    };
    const left = (plate: Plate) => plate.work?.[0]?.left;
    const [long, short] = [cutTo(40), cutTo(25)];
    const check = long.checks.find((c) => c.id === 'stud-length');
    // The same as the check of the plate has it, worked out from the seat of the nut.
    expect([left(long)?.value, left(long)?.limit]).toEqual([check?.value, check?.limit]);
    expect((left(long)?.value ?? 0) - (left(short)?.value ?? 0)).toBeCloseTo(15, 9);
    const metal = short.requirements.find((r) => r.id === 'work-metal');
    expect(metal).toMatchObject({ state: 'fails', cure: 'cut less off, or fit longer studs' });
    expect(metal?.because).toContain('of stud past the seat of its nut');
  });
  test('to do is worth saying; done is not said', () => {
    expect(withWork(work({})).requirements.filter((r) => r.id === 'work-to-do')).toMatchObject([
      { state: 'not known', because: 'opening P1 of motor to 14.0 mm is still to be done' },
    ]);
    expect(withWork(work({ done: true })).requirements.some((r) => r.id === 'work-to-do')).toBe(false);
  });
  test('the sheet has place, size, metal left, setting and caution; once done neither setting nor caution', () => {
    const said = JSON.stringify(workReport(withWork(work({})).work ?? [], speechFor('mm')));
    for (const w of ['P1 (0.00, 97.50) H6', '11.00 → 14.00 mm', '60.50 mm', 'Clamp the part flat', 'to do', 'caution'])
      expect(said).toContain(w);
    const done = JSON.stringify(workReport(withWork(work({ done: true })).work ?? [], speechFor('mm')));
    expect(done).toContain('"done"');
    expect(done).not.toContain('caution');
    expect(workReport([], speechFor('mm'))).toEqual([]);
  });
});

describe('a cure that is work', () => {
  test('is told as the job file has it, and holds once it stands there', () => {
    const b = soundBench();
    const faces = b.job.faces.map((f) => ({
      ...f,
      features: f.features.map((x) => (x.kind === 'stud' ? { ...x, stands: 23 } : x)),
    }));
    const long = plateOf({ ...b, job: { ...b.job, faces } });
    expect(long.ok).toBe(false);
    expect(JSON.stringify(plateReport(long, speechFor('mm')))).toContain(
      'shorten pump: { face: pump, shorten: [P1, P2, P3, P4, P5], to: 20.00 mm }',
    );
    const cure = long.checks.flatMap((c) => c.cures).find((c) => c.kind === 'treatment' && c.work?.kind === 'shorten');
    expect(cure).toMatchObject({ work: { kind: 'shorten', features: ['P1', 'P2', 'P3', 'P4', 'P5'], to: 20 } });
  });
});
