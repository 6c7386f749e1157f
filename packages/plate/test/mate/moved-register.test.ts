import { readJob } from '@fayplate/job';
import { layoutFace, usedPattern } from '@fayplate/layout';
import { locateFace } from '@fayplate/survey';
import { describe, expect, test } from 'vitest';
import { designPlate } from '../../src/index.js';

const plateOf = (text: string) => {
  const read = readJob(text);
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

const job = ({ shaft = '(3, -2)', bore = 20, mill = 'centre: C', clocking = 0 }): string => `job: eccentric
units: mm
faces:
  mill:
    ${mill}
    up: A
    features:
      C: { kind: bore, diameter: 50 }
      A: { kind: stud, thread: M8, diameter: 8, stands: 30 }
      B: { kind: stud, thread: M8, diameter: 8, stands: 30 }
      D: { kind: stud, thread: M8, diameter: 8, stands: 30 }
      E: { kind: stud, thread: M8, diameter: 8, stands: 30 }
    readings:
      - at C = (0, 0) ± 0.04
      - at A = (0, 60) ± 0.04
      - at B = (60, 0) ± 0.04
      - at D = (0, -60) ± 0.04
      - at E = (-60, 0) ± 0.04
  motor:
    centre: S
    up: K
    shaft: W
    features:
      S: { kind: spigot, diameter: 40, stands: 3 }
      W: { kind: stud, diameter: 12 }
      K: { kind: hole, diameter: 9 }
      L: { kind: hole, diameter: 9 }
    readings:
      - at S = (0, 0) ± 0.01
      - at W = ${shaft} ± 0.01
      - at K = (0, 44) ± 0.01
      - at L = (0, -44) ± 0.01
plate:
  between: [mill, motor]
  clocking: ${clocking} deg
  thickness: 20
  material: steel
  bore: { diameter: ${bore} }
  locate: { motor: { register: 40, fit: H7 } }
  fasten: { mill: { as: clearance, thread: M8 }, motor: { as: tapped, thread: M8 } }
  outline: { shape: round, margin: 15 }
`;

describe('a shaft off its register', () => {
  const register = (plate: ReturnType<typeof plateOf>) => plate.bores.find((b) => b.kind === 'recess');

  // By hand: seen from side B the motor, viewed from outside, has its x the other way. Its shaft at (3, −2) from the
  // spigot is then at (−3, −2); laid over the first shaft at (0, 0), the spigot's centre comes to (3, 2).
  test('the register of its face moves so that the shafts meet', () => {
    const plate = plateOf(job({}));
    expect(register(plate)?.x).toBeCloseTo(3, 6);
    expect(register(plate)?.y).toBeCloseTo(2, 6);
    expect(plate.alignment?.offset.nominal).toBeCloseTo(0, 6);
    // Its holes go with it: K, 44 above the spigot's centre.
    const k = plate.holes.find((h) => h.feature === 'motor.K');
    expect([k?.x, k?.y]).toEqual([expect.closeTo(3, 6), expect.closeTo(46, 6)]);
  });

  // A quarter turn clockwise about the shaft takes (3, 2) to (2, −3).
  test('it goes round the shaft with the clocking', () => {
    const plate = plateOf(job({ clocking: 90 }));
    expect([register(plate)?.x, register(plate)?.y]).toEqual([expect.closeTo(2, 6), expect.closeTo(-3, 6)]);
  });

  test('a wall that the bore leaves too thin there is a check that fails, by hand: 20 less 18 less √13', () => {
    const wall = (bore: number) => plateOf(job({ bore })).checks.find((c) => c.id === 'register-wall');
    expect(wall(20)?.value).toBeCloseTo(20 - 10 - Math.sqrt(13), 6);
    expect(wall(20)?.ok).toBe(true);
    expect(wall(36)?.value).toBeCloseTo(20 - 18 - Math.sqrt(13), 6);
    expect(wall(36)?.ok).toBe(false);
  });
});

describe('a centre that only the layout marks', () => {
  // By hand: four studs a quarter turn apart, each place ± 0.04: the centre of their divided circle is their mean, ±
  // 0.04 / √4.
  test('is where the shaft runs, with the ± of the circle', () => {
    const plate = plateOf(
      job({ shaft: '(0, 0)', mill: 'centre: { circle: layout }' }).replace(
        'C: { kind: bore, diameter: 50 }',
        'C: { kind: bore, diameter: 50, vacant: true }',
      ),
    );
    expect(plate.alignment?.circles).toEqual([{ face: 'mill', plusMinus: expect.closeTo(0.02, 6) }]);
    expect([register(plate)?.x, register(plate)?.y]).toEqual([expect.closeTo(0, 6), expect.closeTo(0, 6)]);
  });
  const register = (plate: ReturnType<typeof plateOf>) => plate.bores.find((b) => b.kind === 'recess');
});

describe('jacking screws', () => {
  const with_ = (circle: number, rim: string) =>
    plateOf(
      job({ shaft: '(0, 0)' })
        .replace('  outline:', `  jacking: { thread: M8, circle: ${circle}, clock: [1:30, 7:30] }\n  outline:`)
        .replace('    up: A\n', `    up: A\n${rim}`),
    );
  const jack = (plate: ReturnType<typeof plateOf>) => plate.checks.find((c) => c.id === 'jacking-on-metal');
  const disc = '    rim: ["(90, 90)", "(-90, 90)", "(-90, -90)", "(90, -90)"]\n';

  // By hand: at 45° on a circle of 280 a screw lies at 98.99, 8.99 past the rim at 90, and needs its own 4 more.
  test('past the rim of the part they push on nothing', () => {
    expect(jack(with_(280, disc))?.value).toBeLessThan(0);
    expect(jack(with_(280, disc))?.ok).toBe(false);
    // On 200 it lies at 70.71: 19.29 within the rim, less 4.
    expect(jack(with_(200, disc))?.value).toBeCloseTo(90 - 100 / Math.SQRT2 - 4, 6);
  });

  test('beyond the fasteners of a part without a rim it is not known', () => {
    expect(with_(280, '').requirements.map((r) => r.id)).toContain('jacking-metal');
    expect(with_(60, '').requirements.map((r) => r.id)).not.toContain('jacking-metal');
  });
});
