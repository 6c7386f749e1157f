import { distance } from '@fayplate/core';
import { readJob } from '@fayplate/job';
import { layoutFace, usedPattern } from '@fayplate/layout';
import { locateFace } from '@fayplate/survey';
import { describe, expect, test } from 'vitest';
import { designPlate } from '../../src/index.js';

const text = (shafts: string, clocking = '0 deg'): string => `job: gears
units: mm
faces:
  box:
    centre: C
    up: A
    features:
      C: { kind: bore, diameter: 40, deep: 6 }
      A: { kind: stud, thread: M8, clock: 12, stands: 40 }
      B: { kind: stud, thread: M8, clock: 4, stands: 40 }
    readings:
      - at C = (0, 0) ± 0.02
      - at A = (0, 60) ± 0.02
      - at B = (60, -30) ± 0.02
  motor:
    centre: S
    up: G
    shaft: Q
    flange: 10
    features:
      S: { kind: spigot, diameter: 30, stands: 3 }
      Q: { kind: boss, diameter: 14 }
      G: { kind: hole, diameter: 9, clock: 12 }
      K: { kind: hole, diameter: 9, clock: 6 }
    readings:
      - at S = (0, 0) ± 0.02
      - at Q = (6, -2) ± 0.02
      - at G = (0, 35) ± 0.02
      - at K = (10, -35) ± 0.02
plate:
  between: [box, motor]
  material: aluminium
  thickness: 20
  clocking: ${clocking}
  locate: { box: { register: 39.9, depth: 3 }, motor: { register: 30.1, depth: 4 } }
  fasten: { box: { as: clearance, thread: M8 }, motor: { as: tapped, thread: M8 } }
  outline: { shape: rectangle, margin: 15 }
  shafts: ${shafts}
`;

const design = (words: string) => {
  const read = readJob(words);
  if (!read.ok) throw new Error(read.faults.map((f) => f.expected).join('\n'));
  const { job } = read;
  const used = new Map(
    job.faces.map((face) => {
      const located = locateFace({ face, instruments: job.instruments }, { next: false });
      const u = usedPattern(face, located, layoutFace(face, located));
      if (!u.ok) throw new Error(u.why);
      return [face.name, u.used];
    }),
  );
  const designed = designPlate(job, used, { stack: null, trials: 50 });
  if (!designed.ok) throw new Error(designed.faults.join('\n'));
  return designed;
};

/** The second motor's own register lies off its shaft by (6, −2), drawn the other way round from side B. */
describe('two shafts that are meant to be apart', () => {
  test.each([
    ['180 deg', { x: 0, y: -110 }],
    ['90 deg', { x: 110, y: 0 }],
    ['A', { x: 0, y: 110 }],
  ] as const)('toward %s', (toward, at) => {
    const { plate, mated } = design(text(`{ apart: 110 ± 0.2, toward: ${toward} }`));
    const axis = mated[1].axis?.at ?? { x: 0, y: 0 };
    expect(axis.x).toBeCloseTo(at.x, 3);
    expect(axis.y).toBeCloseTo(at.y, 3);
    const recess = plate.bores.find((b) => b.kind === 'recess');
    expect(recess?.x).toBeCloseTo(at.x + 6, 2);
    expect(recess?.y).toBeCloseTo(at.y + 2, 2);
    expect(plate.alignment?.offset).toMatchObject({ nominal: 0, limit: 0.2 });
    expect(plate.checks.find((c) => c.id === 'shaft-offset')?.limit).toBe(0.2);
  });

  // By hand: what lies off by the worst offset, square to a line of 110, turns it by asin(offset / 110).
  test.each([
    ['180 deg ± 0.5 deg', true],
    ['180 ± 0.5 deg', true],
    ['A ± 0.5 deg', true],
    ['A ± 0.01 deg', false],
  ] as const)('toward %s: the line between them turns no more than that', (toward, ok) => {
    const { plate } = design(text(`{ apart: 110, toward: ${toward} }`));
    const check = plate.checks.find((c) => c.id === 'shaft-direction');
    const worst = plate.alignment?.offset.worst ?? NaN;
    expect(check?.value).toBeCloseTo((Math.asin(worst / 110) * 180) / Math.PI, 9);
    expect(check?.ok).toBe(ok);
    expect(design(text(`{ apart: 110, toward: A }`)).plate.checks.some((c) => c.id === 'shaft-direction')).toBe(false);
  });

  test('the distance stays at any clocking', () => {
    for (const clocking of ['0 deg', '35 deg', '-80 deg']) {
      const { mated } = design(text('{ apart: 110, toward: 180 deg }', clocking));
      expect(distance(mated[0].axis?.at ?? { x: 9, y: 9 }, mated[1].axis?.at ?? { x: 9, y: 9 })).toBeCloseTo(110, 9);
    }
  });

  test.each([
    ['{ apart: 110, toward: 6 }', /too rough to bore by/],
    ['{ apart: 110, toward: Z }', /a feature of box/],
    ['{ apart: 110 }', /`toward` as well/],
    ['{ apart: 110, toward: "6:00 ± 1 deg" }', /too rough to bore by/],
    ['{ apart: 110, toward: 180 deg ± }', /after the ±/],
    ['{ apart: 110, toward: 180 deg ± 0 deg }', /a ± above zero/],
    ['{ apart: 110, toward: 180 deg ± 1 deg ± 1 deg }', /one ± at most/],
  ])('%s is refused', (shafts, expected) => {
    const read = readJob(text(shafts));
    expect(read.ok ? '' : read.faults.map((f) => f.expected).join(' ')).toMatch(expected);
  });
});
