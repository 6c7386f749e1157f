import { describe, expect, test } from 'vitest';
import { layDesk } from '../../src/desk.js';
import { drawDraft } from '../../src/draft.js';
import { jointsOf } from '../../src/fit/joints.js';
import { type Bench, bench, fasten, plateOf, ring, soundBench } from '../support/plate.js';

const joints = (b: Bench, index: 0 | 1) => {
  const laid = layDesk(b.job, b.used, { stack: null, clocking: 0 });
  const drafted = laid.ok ? drawDraft(laid.desk) : laid;
  if (!laid.ok || !drafted.ok) throw new Error('no draft');
  return jointsOf(laid.desk, drafted.draft, index);
};
const clearance = (b: Bench, index: 0 | 1, id: string) =>
  joints(b, index).spec.joints.find((j) => j.id === id)?.clearance;

describe('what must meet', () => {
  test('a stud in a clearance hole: half of hole less stud, the hole from its least to its H13 most', () => {
    // M8 normal is 9; H13 of 6 to 10 mm is 0.22 (ISO 286-1).
    expect(clearance(soundBench(), 0, 'P1')).toEqual([0.5, expect.closeTo(0.61, 9)]);
  });
  test("a bolt held in the plate has its part's own hole only (the fixed fastener of ASME Y14.5)", () => {
    expect(clearance(soundBench(), 1, 'P1')).toEqual([
      expect.closeTo((11 - 9.968) / 2, 9),
      expect.closeTo((11 - 9.968) / 2, 9),
    ]);
  });
  test('a bolt through two loose holes has the clearance of both (the floating fastener)', () => {
    const b = bench(
      { spots: ring(3, 50, 0, { kind: 'hole', thread: 'M8', d: 9 }) },
      { spots: {} },
      { fasten: new Map([['pump', fasten({ head: 'nut' })]]) },
    );
    expect(clearance(b, 0, 'P1')?.[0]).toBeCloseTo((9 - 7.972) / 2 + (9 - 7.972) / 2, 9);
  });
  test('a screw into a thread of the part has the hole of the plate only', () => {
    const b = bench(
      { spots: ring(3, 50, 0, { kind: 'hole', thread: 'M8', d: 6.8 }) },
      { spots: {} },
      { fasten: new Map([['pump', fasten({ head: 'cap screw' })]]) },
    );
    expect(clearance(b, 0, 'P1')?.[0]).toBeCloseTo((9 - 7.972) / 2, 9);
  });
  test('a register locates, exactly measured from; dowels locate, the slot free along its line', () => {
    const [register] = joints(soundBench(), 0).spec.joints;
    expect(register).toMatchObject({ id: 'spigot', role: 'locator', made: 0, along: null });
    expect(register?.clearance[0]).toBeCloseTo(0.025, 9);
    const b = bench(
      {
        spots: { D1: { kind: 'dowel', d: 8, at: { x: 50, y: 0 } }, D2: { kind: 'dowel', d: 8, at: { x: -50, y: 0 } } },
      },
      { spots: {} },
      { locate: new Map([['pump', { as: 'own dowels', features: ['D1', 'D2'], second: 'slot' }]]) },
    );
    expect(
      joints(b, 0).spec.joints.map((j) => [
        j.id,
        j.role,
        j.along === null ? null : Math.abs(Math.cos(j.along)).toFixed(6),
      ]),
    ).toEqual([
      ['D1', 'locator', null],
      ['D2', 'locator', '1.000000'],
    ]);
  });
  test('the play of a register counts the ± of what it fits', () => {
    const b = soundBench();
    const faces = b.job.faces.map((f) => ({
      ...f,
      features: f.features.map((x) => (x.kind === 'spigot' ? { ...x, diameter: { value: 60, plusMinus: 0.02 } } : x)),
    }));
    // 60.05 less 60 ± 0.02, half of it all round.
    expect(clearance({ ...b, job: { ...b.job, faces } }, 0, 'spigot')).toEqual([
      expect.closeTo(0.015, 9),
      expect.closeTo(0.035, 9),
    ]);
  });
  test('other fits are offered where the plate chooses them, opened holes where the part has them', () => {
    expect(joints(soundBench(), 0).fits.map((f) => [f.name, Number(f.clearances[1]?.[0].toFixed(6))])).toEqual([
      ['close', 0.2],
      ['normal', 0.5],
      ['loose', 1],
    ]);
    expect(joints(soundBench(), 1).fits).toEqual([]);
    expect(joints(soundBench(), 1).opened.map((o) => o.name)).toEqual(['10.5 mm', '11 mm', '12 mm']);
  });
  test('what has no size is left out and said', () => {
    const b = bench(
      { spots: {} },
      { spots: ring(3, 60, 0, { kind: 'hole' }) },
      { fasten: new Map([['motor', fasten({ as: 'tapped', thread: 'M10' })]]) },
    );
    expect(joints(b, 1).unsized).toEqual(['P1', 'P2', 'P3']);
    expect(plateOf(b).unknowns.join(' ')).toContain('P1, P2, P3 enter motor is not checked');
  });
  test('the covariance is that of the pattern in the plate, in the order of the joints', () => {
    const b = soundBench();
    const used = new Map(
      [...b.used].map(([name, u]) => [
        name,
        {
          ...u,
          pattern: {
            ...u.pattern,
            covariance: u.pattern.covariance.map((row, i) =>
              row.map((_, j) => (i === j ? 0.01 * (1 + Math.floor(i / 2)) : 0)),
            ),
          },
        },
      ]),
    );
    const { spec } = joints({ ...b, used }, 0);
    expect(spec.joints.map((j) => j.id)).toEqual(['spigot', 'P1', 'P2', 'P3', 'P4', 'P5']);
    expect(spec.covariance.map((row, i) => row[i])).toEqual(
      [1, 1, 2, 2, 3, 3, 4, 4, 5, 5, 6, 6].map((k) => expect.closeTo(0.01 * k, 12)),
    );
  });
});

test('progress runs once from nothing to all over both faces', () => {
  const told: (readonly [number, number])[] = [];
  plateOf(soundBench(), { trials: 2000, progress: (done, of) => told.push([done, of]) });
  expect(told).toEqual([1000, 2000, 3000, 4000].map((done) => [done, 4000]));
});
