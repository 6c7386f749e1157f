import { describe, expect, test } from 'vitest';
import { type Options, answer } from '../src/index.js';
import { bareWorld } from './support.js';

/** Two faces with a hole of the same name on each; readings of the drilled plate in the names that the test gives. */
const job = (drilled: string): string => `
job: Two plates of four
units: mm
instruments: { caliper: ± 0.04 }
faces:
  base:
    centre: ring
    up: A1
    features:
      ring: { kind: bore, diameter: 40 ± 0.02, deep: 8 }
      A1: { kind: hole, thread: M6, diameter: 5 ± 0.05, clock: 12 }
      A2: { kind: hole, thread: M6, diameter: 5 ± 0.05, clock: 4 }
      B: { kind: hole, thread: M6, diameter: 5 ± 0.05, clock: 8 }
    readings:
      - at ring = (0, 0) by caliper
      - at A1 = (0, 40) by caliper
      - at A2 = (34.64, -20) by caliper
      - at B = (-34.64, -20) by caliper
  head:
    centre: spigot
    up: B
    features:
      spigot: { kind: spigot, diameter: 30 ± 0.02, stands: 3 }
      B: { kind: hole, diameter: 9, clock: 12 }
      C: { kind: hole, diameter: 9, clock: 3 }
      D: { kind: hole, diameter: 9, clock: 7 }
    readings:
      - at spigot = (0, 0) by caliper
      - at B = (0, 60) by caliper
      - at C = (60, 0) by caliper
      - at D = (-30, -51.96) by caliper
plate:
  between: [base, head]
  thickness: 20
  bore: { diameter: 20 }
  locate: { base: { register: 39.9, depth: 3 }, head: { register: 30.1, depth: 4 } }
  fasten: { base: { as: clearance, cap screw: counterbored, thread: M6 }, head: { as: tapped, thread: M8 } }
  outline: { shape: round, margin: 12 }
  drilling: ± 0.05
drilled:
  readings:
${drilled}`;

const options: Options = { trials: 100 };
const proved = (drilled: readonly string[]) =>
  answer(job(drilled.map((d) => `    - ${d} by caliper\n`).join('')), 'prove', options, bareWorld);

describe('a drilled hole', () => {
  const byPlate = ['at H1 = (0, 40)', 'at H2 = (34.64, -20)', 'at H5 = (-60, 0)', 'at C3 = (0, 0)'];
  const byPart = ['at A1 = (0, 40)', 'at A2 = (34.64, -20)', 'at C = (-60, 0)', 'at spigot = (0, 0)'];

  test('may be called by what it is for, with the same proof', async () => {
    const [plate, part] = [await proved(byPlate), await proved(byPart)];
    expect(plate.error).toBeNull();
    expect((plate.json as { holes: unknown[] }).holes).toHaveLength(3);
    expect((part.json as { holes: unknown }).holes).toEqual((plate.json as { holes: unknown }).holes);
  });

  test('may be called by part and feature, as the table has it, also where both parts have that feature', async () => {
    const byBoth = ['at base.A1 = (0, 40)', 'at base.A2 = (34.64, -20)', 'at head.C = (-60, 0)'];
    const [plate, both] = [
      await proved([...byPlate, 'at H3 = (-34.64, -20)']),
      await proved([...byBoth, 'at head.spigot = (0, 0)', 'at base.B = (-34.64, -20)']),
    ];
    expect(both.faults).toEqual([]);
    const holesOf = ({ json }: { json: unknown }) =>
      (json as { holes: { id: string }[] }).holes.toSorted((a, b) => a.id.localeCompare(b.id));
    expect(holesOf(plate).map((h) => h.id)).toEqual(['H1', 'H2', 'H3', 'H5']);
    expect(holesOf(both)).toEqual(holesOf(plate));
    expect((await proved([...byPart, 'at tail.A1 = (1, 2)'])).faults[0]?.found).toBe('tail.A1');
  });

  test('of a name that both parts have, or none, is refused with what there is', async () => {
    expect((await proved([...byPart, 'at B = (1, 2)'])).error).toMatch(/the plate has no B/);
    expect((await proved([...byPart, 'at A9 = (1, 2)'])).faults[0]?.expected).toMatch(/or the feature that one is for/);
  });

  test('has one name at a time', async () => {
    expect((await proved([...byPlate, 'at A1 = (0, 40)'])).error).toMatch(/H1 is named in two ways, H1 and A1/);
  });
});
