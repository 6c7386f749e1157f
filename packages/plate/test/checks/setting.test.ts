import { readJob } from '@fayplate/job';
import { layoutFace, usedPattern } from '@fayplate/layout';
import { locateFace } from '@fayplate/survey';
import { describe, expect, test } from 'vitest';
import { assemblyReport, designPlate } from '../../src/index.js';

const text = (motor: string): string => `job: set true
units: mm
faces:
  mill:
    centre: C
    up: A
    features:
      C: { kind: bore, diameter: 40 }
      A: { kind: hole, thread: M8, deep: 20 }
      B: { kind: hole, thread: M8, deep: 20 }
    readings:
      - at C = (0, 0) ± 0.02
      - at A = (0, 70) ± 0.02
      - at B = (0, -70) ± 0.02
  motor:
    centre: S
    up: M1
    features:
      S: { kind: spigot, diameter: 60 ± 0.02, stands: 4 }
      M1: { kind: hole, diameter: 9 }
      M2: { kind: hole, diameter: 9 }
      M3: { kind: hole, diameter: 9 }
    flange: 10
    readings:
      - at S = (0, 0) ± 0.02
      - at M1 = (0, 75) ± 0.02
      - at M2 = (64.952, -37.5) ± 0.02
      - at M3 = (-64.952, -37.5) ± 0.02
plate:
  between: [mill, motor]
  clocking: 90 deg
  thickness: 20
  material: steel
  bore: { diameter: 30 }
  drilling: ± 0.05
  alignment: { offset: 0.1 }
  locate: { mill: { register: 39.98, depth: 4 }, motor: ${motor} }
  fasten: { mill: { as: clearance, thread: M8, cap screw: counterbored }, motor: { as: tapped, thread: M8 } }
  outline: { shape: round, margin: 15 }
`;

const planned = (motor: string) => {
  const read = readJob(text(motor));
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
  const sheet = assemblyReport(designed.plate, job, null, { unit: 'mm', fraction: null });
  return { plate: designed.plate, words: JSON.stringify(sheet) };
};

const roomsOf = (plate: ReturnType<typeof planned>['plate']) => plate.checks.filter((c) => c.id === 'set-room');

describe('a part that is set true by indicator and then dowelled', () => {
  // By hand, two standard deviations: the spigot from the mean of three bolts 2 √(2 · 0.01² (1 + 1/3)), their holes as
  // made 2 √(2 · 0.025² / 3).
  const off = Math.hypot(2 * Math.sqrt((2 * 0.01 ** 2 * 4) / 3), 2 * Math.sqrt((2 * 0.025 ** 2) / 3));

  test('its spigot lies in a recess that it can be shifted in, and locates nothing', () => {
    const { plate } = planned('{ register: 60.6, set: by indicator, dowels: 2, diameter: 6, reading: 0.04 }');
    const recess = plate.bores.find((b) => b.feature === 'motor.S');
    expect(recess).toMatchObject({ kind: 'relief', diameter: 60.6, side: 'B', depth: 4.5 });
    expect(plate.holes.filter((h) => h.as === 'dowel' && h.part === null)).toHaveLength(2);
    const [least] = roomsOf(plate);
    expect(least?.of).toEqual(['motor', recess?.id]);
    // At its tightest the spigot is 60.02.
    expect(least?.value).toBeCloseTo((60.6 - 60.02) / 2, 9);
    expect(least?.limit).toBeCloseTo(off - 0.02, 6);
    expect(least?.ok).toBe(true);
  });

  test('a recess that leaves too little room fails, and the bolts stop it where the recess is wide', () => {
    const tight = roomsOf(
      planned('{ register: 60.05, set: by indicator, dowels: 2, diameter: 6, reading: 0.02 }').plate,
    );
    expect(tight.filter((c) => !c.ok).map((c) => c.value)).toEqual([expect.closeTo(0.015, 9)]);
    const wide = roomsOf(planned('{ set: by indicator, dowels: 2, diameter: 6 }').plate);
    // M8 of class 6g is 7.972 at its largest (ISO 965-2, from memory), in holes of 9.
    expect(wide.map((c) => c.value)).toEqual([expect.closeTo((9 - 7.972) / 2, 9)]);
    // Half of what the coupling bears is read as its whole: 0.1 mm.
    expect(wide[0]?.limit).toBeCloseTo(Math.max(0, off - 0.05), 6);
  });

  test(
    'the offset of the shafts is what the indicator may leave; the ' +
      'assembly says where to read, what to reach, and the dowels last',
    () => {
      const { plate, words } = planned('{ register: 60.6, set: by indicator, dowels: 2, diameter: 6, reading: 0.04 }');
      expect(plate.alignment?.sources.find((s) => s.says === 'setting motor true by indicator')?.worst).toBeCloseTo(
        0.02,
        9,
      );
      expect(words).toMatch(/whole movement \(FIM\) is at most 0\.04 mm: twice the offset/);
      expect(words).toMatch(/can be shifted 0\.29 mm every way; C\d stops it first/);
      expect(words).toMatch(/Last drill and ream H\d and H\d through both, drive the dowels/);
      // Without the word nothing of this is said.
      const plain = planned('{ dowels: 2, diameter: 6 }');
      expect(roomsOf(plain.plate)).toEqual([]);
      expect(plain.words).toMatch(/until the indicator is still/);
    },
  );
});
