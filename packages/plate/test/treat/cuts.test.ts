import { flatten } from '@fayplate/core';
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
        '    drain: { hole: 8, at: [20, -40], why: drain }\n    key: { slot: 6, length: 12, angle: 30 deg, at: ' +
          '[-25, 30] }\n    knob: { pocket: 22, depth: 5, at: [30, 25], side: B }',
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

  /**
   * Drawn from side B the second face, viewed from outside, is seen the other way round: x changes its sign, and so
   * does a slot's slant.
   */
  test('in the other face’s frame, and at a feature of it', () => {
    const plate = plateOf(
      text(
        '    oil: { slot: 5, length: 10, angle: 30 deg, at: [25, 20], face: motor, depth: 4 }\n    clear: { hole: ' +
          '12, at: K, face: motor }',
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

  const bare = plateOf(text('').replace(/ {2}cuts:\s*$/, ''));
  const ALUMINIUM = 2700e-9;
  /** Metal that is gone, mm³. */
  const goneFrom = (plate: typeof bare): number => ((bare.outline.mass ?? 0) - (plate.outline.mass ?? 0)) / ALUMINIUM;

  test('a pocket with straight sides: its corners, its place and turn, and its metal off the weight', () => {
    const plate = plateOf(
      text('    key: { pocket: [24, 10], corner: 2, depth: 6, angle: 30 deg, at: [15, 36], side: B }'),
    );
    const bore = plate.bores.find((b) => b.cut?.name === 'key');
    expect(bore).toMatchObject({
      x: 15,
      y: 36,
      side: 'B',
      depth: 6,
      diameter: 10,
      box: { length: 24, width: 10, corner: 2 },
    });
    expect(bore?.box?.angle).toBeCloseTo(Math.PI / 6, 9);
    // By hand: the rectangle less what four round corners leave, (4 − π) r².
    expect(goneFrom(plate)).toBeCloseTo((24 * 10 - (4 - Math.PI) * 2 ** 2) * 6, 3);
  });

  test('its wall keeps off a hole by straight side and by round corner, and one in its floor keeps off its wall', () => {
    const web = (hole: string): number | undefined => {
      const plate = plateOf(
        text(
          '    key: { pocket: [24, 10], corner: 2, depth: 6, at: ' +
            `[0, 36], side: B }\n    drain: { hole: 4, at: ${hole} }`,
        ),
      );
      const ids = [
        plate.bores.find((b) => b.cut?.name === 'key')?.id,
        plate.holes.find((h) => h.cut?.name === 'drain')?.id,
      ];
      return plate.checks.find((c) => c.id === 'web-between-cuts' && ids.every((id) => c.of.includes(id ?? '')))?.value;
    };
    // Side at y 41: 3 mm from the hole's middle, less its radius.
    expect(web('[0, 44]')).toBeCloseTo(3 - 2, 9);
    // Corner's centre at (10, 39), 3 right and 4 up: 5 away, less both radii.
    expect(web('[13, 43]')).toBeCloseTo(5 - 2 - 2, 9);
    // In the floor, 0.5 off the right wall at x 12: middle 2.5 from it, less the radius.
    expect(web('[9.5, 36]')).toBeCloseTo(0.5, 9);
    expect(web('[11, 36]')).toBeCloseTo(-1, 9);
  });

  test(
    'a notch is part of the outline: round at its end, or with ' +
      'corners; and at the nearest edge where nothing else is said',
    () => {
      // The rectangle's upper edge lies 15 above the hole at (0, 45), whose radius is that of its tapping drill.
      const top = Math.max(...flatten(bare.outline.path, 0.01).map((p) => p.y));
      const round = plateOf(text(`    lead: { notch: 12, at: [30, ${top - 10}] }`));
      expect(goneFrom(round)).toBeCloseTo((12 * 10 + (Math.PI * 6 ** 2) / 2) * 20, 3);
      expect(bare.outline.area - round.outline.area).toBeCloseTo(12 * 10 + (Math.PI * 6 ** 2) / 2, 6);
      const square = plateOf(text(`    lead: { notch: 12, corner: 2, at: [30, ${top - 10}], angle: 90 deg }`));
      expect(goneFrom(square)).toBeCloseTo((12 * 16 - ((4 - Math.PI) * 2 ** 2) / 2) * 20, 3);
      const blind = plateOf(text(`    lead: { notch: 12, corner: 2, at: [30, ${top - 10}], depth: 5, side: B }`));
      expect(goneFrom(blind)).toBeCloseTo((12 * 16 - ((4 - Math.PI) * 2 ** 2) / 2) * 5, 3);
      expect(blind.outline.area).toBeCloseTo(bare.outline.area, 9);
    },
  );

  test('a hole beside a notch is judged by its edge, and a notch on the second face turns with it', () => {
    const top = Math.max(...flatten(bare.outline.path, 0.01).map((p) => p.y));
    const plate = plateOf(
      text(`    lead: { notch: 12, at: [30, ${top - 20}] }\n    drain: { hole: 4, at: [30, ${top - 30}] }`),
    );
    const id = plate.holes.find((h) => h.cut?.name === 'drain')?.id ?? '';
    // Its middle lies 10 below the centre of the round end: 4 to the edge, one diameter.
    expect(plate.checks.find((c) => c.id === 'hole-to-edge' && c.of.includes(id))?.value).toBeCloseTo(4 / 4, 9);
    const motor = plateOf(text(`    lead: { notch: 12, at: [30, ${top - 10}], face: motor }`));
    expect(motor.bores.find((b) => b.cut?.name === 'lead')).toMatchObject({ x: -30, side: 'through' });
  });

  test('a notch that takes nothing, or crosses the edge more than twice, is refused in words', () => {
    expect(() => plateOf(text('    lead: { notch: 12, at: [0, 500], angle: 90 deg }'))).toThrow(/takes nothing of it/);
    expect(() => plateOf(text('    lead: { notch: 300, at: [0, 0], angle: 90 deg }'))).toThrow(
      /lies off the plate|crosses the edge/,
    );
  });
});
