import { readJob } from '@fayplate/job';
import { layoutFace, usedPattern } from '@fayplate/layout';
import { locateFace } from '@fayplate/survey';
import { describe, expect, test } from 'vitest';
import { designPlate } from '../../src/index.js';

const text = (cuts: string, viewed = 'from outside'): string => `job: cuts
units: mm
faces:
  mill:
    viewed: ${viewed}
    centre: C
    features:
      C: { kind: bore, diameter: 60 }
      A: { kind: stud, thread: M8, clock: 3 }
      B: { kind: stud, thread: M8, clock: 9 }
    readings:
      - at C = (0, 0) ± 0.02
      - at A = (60, 0) ± 0.02
      - at B = (-60, 0) ± 0.02
  motor:
    centre: S
    up: G
    features:
      S: { kind: bore, diameter: 40 }
      G: { kind: hole, diameter: 9, clock: 12 }
      K: { kind: hole, diameter: 9, clock: 6 }
    readings:
      - at S = (0, 0) ± 0.02
      - at G = (0, 45) ± 0.02
      - at K = (10, -45) ± 0.02
plate:
  between: [mill, motor]
  material: aluminium
  thickness: 20
  fasten: { mill: { as: clearance, thread: M8 }, motor: { as: tapped, thread: M8 } }
  outline: { shape: rectangle, margin: 15 }
  cuts:
${cuts}
`;

const plateOf = (words: string) => {
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
  return designed.plate;
};

describe('cuts that fasten nothing', () => {
  test('a hole, a slot and a pocket, each at its place, with its name', () => {
    const plate = plateOf(
      text(
        '    drain: { hole: 8, at: [20, -40], why: drain }\n    key: { slot: 6, length: 12, angle: 30 deg, at: [-25, 30] }\n    knob: { pocket: 22, depth: 5, at: [30, 25], side: B }',
      ),
    );
    const [drain, key] = plate.holes.filter((h) => h.as === 'cut');
    expect(drain).toMatchObject({ x: 20, y: -40, diameter: 8, depth: null, cut: { name: 'drain', why: 'drain' } });
    expect(key).toMatchObject({ x: -25, y: 30, diameter: 6, slot: { length: 12 } });
    expect(key?.slot?.angle).toBeCloseTo(Math.PI / 6, 9);
    expect(plate.bores.find((b) => b.cut?.name === 'knob')).toMatchObject({
      x: 30,
      y: 25,
      diameter: 22,
      side: 'B',
      depth: 5,
    });
  });

  /** Drawn from side B the second face, viewed from outside, is seen the other way round: x changes its sign, and so does a slot's slant. */
  test('in the other face’s frame, and at a feature of it', () => {
    const plate = plateOf(
      text(
        '    oil: { slot: 5, length: 10, angle: 30 deg, at: [25, 20], face: motor, depth: 4 }\n    clear: { hole: 12, at: K, face: motor }',
      ).replace('K: { kind: hole, diameter: 9, clock: 6 }', 'K: { kind: hole, diameter: 9, clock: 6, vacant: true }'),
    );
    const [oil, clear] = plate.holes.filter((h) => h.as === 'cut');
    expect(oil).toMatchObject({ x: -25, y: 20, from: 'B', depth: 4 });
    expect(Math.tan(oil?.slot?.angle ?? 0)).toBeCloseTo(Math.tan((150 * Math.PI) / 180), 9);
    expect(clear?.x).toBeCloseTo(-10, 6);
    expect(clear?.y).toBeCloseTo(-45, 6);
  });

  test('a cut too near another is a failed web, and its metal is off the weight', () => {
    const bad = plateOf(text('    drain: { hole: 8, at: [52, 4] }'));
    const hole = bad.holes.find((h) => h.cut?.name === 'drain')?.id ?? '?';
    expect(bad.checks.filter((c) => !c.ok && c.id === 'web-between-cuts').some((c) => c.of.includes(hole))).toBe(true);
    const [with_, without] = [
      plateOf(text('    drain: { hole: 8, at: [20, -40] }')),
      plateOf(text('').replace(/ {2}cuts:\s*$/, '')),
    ];
    const gone = ((without.outline.mass ?? 0) - (with_.outline.mass ?? 0)) / (2700 * 1e-9);
    expect(gone).toBeCloseTo(Math.PI * 16 * 20, 3);
  });
});
