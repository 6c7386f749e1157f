import type { Feature, FeatureKind, Job } from '@fayplate/job';
import { describe, expect, test } from 'vitest';
import { routes } from '../../src/index.js';
import { hole, simple, withMachine } from '../fixture.js';

const feature = (id: string, kind: FeatureKind, more: Partial<Feature> = {}): Feature => ({
  id,
  kind,
  diameter: null,
  diameterFrom: null,
  thread: null,
  clock: null,
  vacant: false,
  stands: null,
  deep: null,
  lean: null,
  height: null,
  ...more,
});
const plain = feature('P1', 'hole', { diameter: { value: 8.5, plusMinus: null } });
const jobOf = (features: readonly Feature[], punches: readonly number[] | null = null): Job => {
  const job = withMachine({
    punches: punches === null ? null : punches.map((diameter) => ({ name: `${diameter} mm`, diameter })),
  });
  return { ...job, faces: job.faces.map((f) => (f.name === 'pump' ? { ...f, features } : f)) };
};
const named = (job: Job, ...holes: Parameters<typeof simple>[0]) =>
  new Map(routes(simple(holes), job).map((r) => [r.name, r]));
const for1 = hole('H1', 0, 0, { feature: 'pump.P1', diameter: 9, fastener: 8 });

describe('ways to place a hole by hand', () => {
  test.each([
    ['a plain hole', plain, ['spotted through the part', 'transfer punches', 'paper template and punch']],
    ['a tapped hole', feature('P1', 'hole', { thread: 'M8' }), ['transfer screws', 'paper template and punch']],
    ['a stud', feature('P1', 'stud', { thread: 'M8' }), ['blued ends', 'paper template and punch']],
    ['a boss, which carries no fastener', feature('P1', 'boss'), ['paper template and punch']],
  ])('%s', (_, own, names) => {
    expect([...named(jobOf([own]), for1).keys()]).toEqual(names);
  });

  test('the nearest first; only new dowels are reamed with their part', () => {
    const found = routes(simple([for1, hole('H2', 30, 0, { as: 'dowel', diameter: 6, fastener: 6 })]), jobOf([plain]));
    expect(found.map((r) => r.plusMinus)).toEqual(found.map((r) => r.plusMinus).toSorted((a, b) => a - b));
    expect(found[0]).toMatchObject({ name: 'dowels reamed at assembly', holes: ['H2'], tooCoarseFor: [] });
  });

  // Common practice: ± 0.2 for the strike; a punch of 8 in a hole of 8.5 may stand off by 0.25 more.
  test('by hand: the largest punch that goes in, and what it leaves', () => {
    expect(named(jobOf([plain], [6, 9, 8]), for1).get('transfer punches')).toMatchObject({
      plusMinus: Math.hypot(0.2, 0.25),
      says: expect.stringContaining('(8 mm)'),
    });
    expect(named(jobOf([plain], [8.5]), for1).get('transfer punches')?.plusMinus).toBeCloseTo(0.2, 12);
    expect(named(jobOf([plain]), for1).get('transfer punches')?.plusMinus).toBeCloseTo(0.2, 12);
    expect(named(jobOf([plain], [9]), for1).has('transfer punches')).toBe(false);
  });

  test('too coarse where the clearance is less: half of hole less fastener', () => {
    // 0.5 a side in a hole of 9 for a pin of 8, 0.45 in one of 8.9; paper comes within 0.5.
    const tight = hole('H2', 30, 0, { feature: 'pump.P1', diameter: 8.9, fastener: 8 });
    expect(named(jobOf([plain]), for1, tight).get('paper template and punch')).toMatchObject({
      holes: ['H1', 'H2'],
      tooCoarseFor: ['H2'],
    });
    // A dowel of the part's own has no clearance to spend; what is tapped bears what its mate does.
    const own = hole('H3', 0, 30, { feature: 'pump.P1', as: 'dowel', diameter: 8, fastener: 8 });
    const tapped = hole('H4', 0, 60, { feature: 'pump.P1', as: 'tapped', diameter: 6.8, fastener: null });
    expect(named(jobOf([plain]), own, tapped).get('paper template and punch')?.tooCoarseFor).toEqual(['H3']);
  });

  const sized = (id: string, kind: FeatureKind, thread: string | null, value: number): Feature =>
    feature(id, kind, { thread, diameter: { value, plusMinus: null }, diameterFrom: 'job' });
  const mixed = [
    sized('S', 'stud', 'M8', 7.9),
    sized('D', 'dowel', null, 8),
    sized('T', 'hole', 'M8', 6.7),
    sized('C', 'hole', 'M8', 9),
    sized('P', 'hole', null, 9),
  ];

  // Geometry: there is no hole to spot through where a pin stands, and no thread for a transfer screw in a plain hole
  // that only names its bolt.
  test.each([
    ['blued ends', ['H1', 'H2']],
    ['transfer screws', ['H3']],
    ['spotted through the part', ['H4', 'H5']],
    ['transfer punches', ['H4', 'H5']],
  ])('%s: what it serves', (name, holes) => {
    expect(
      named(jobOf(mixed), ...mixed.map((f, i) => hole(`H${i + 1}`, 20 * i, 0, { feature: `pump.${f.id}` }))).get(name)
        ?.holes,
    ).toEqual(holes);
  });
});
