import { readJob } from '@fayplate/job';
import { describe, expect, test } from 'vitest';
import { circleOrigin } from '../../src/frame/datum.js';
import { times } from '../../src/frame/rows.js';
import { locateFace } from '../../src/index.js';

const on = (angles: readonly number[], radius = 50, centre = { x: 7, y: -3 }) =>
  angles.map((a) => ({
    x: centre.x + radius * Math.cos((a * Math.PI) / 180),
    y: centre.y + radius * Math.sin((a * Math.PI) / 180),
  }));

const slotsOf = (n: number) =>
  Array.from(
    { length: n },
    (_, i) =>
      ({ id: `S${i}`, x: 2 * i, y: 2 * i + 1, r: null }) as unknown as Parameters<typeof circleOrigin>[1][number],
  );

describe('a centre that nothing marks', () => {
  test.each([[[0, 100, 250]], [[10, 60, 130, 300, 345]], [[0, 20, 45]]])(
    'moves with its features as differences say: %j',
    (angles) => {
      const points = on(angles);
      const x = Float64Array.from(points.flatMap((p) => [p.x, p.y]));
      const made = circleOrigin(x, slotsOf(points.length));
      expect(made?.at.x).toBeCloseTo(7, 9);
      expect(made?.at.y).toBeCloseTo(-3, 9);
      for (let k = 0; k < x.length; k++) {
        const step = Float64Array.from(x, () => 0);
        step[k] = 1e-5;
        const there = (sign: number) =>
          circleOrigin(
            x.map((v, i) => v + sign * (step[i] ?? 0)),
            slotsOf(points.length),
          )?.at ?? { x: 0, y: 0 };
        expect((there(1).x - there(-1).x) / 2e-5).toBeCloseTo(times(made?.rows[0] ?? new Map(), step) / 1e-5, 4);
        expect((there(1).y - there(-1).y) / 2e-5).toBeCloseTo(times(made?.rows[1] ?? new Map(), step) / 1e-5, 4);
      }
    },
  );

  test('three on a line have none', () =>
    expect(circleOrigin(Float64Array.from([0, 0, 1, 1, 2, 2]), slotsOf(3))).toBeNull());

  const job = (centre: string) => {
    const places = on([90, 210, 330, 45], 60).map(
      (p, i) => `      - at S${i + 1} = (${p.x.toFixed(6)}, ${p.y.toFixed(6)}) ± 0.04`,
    );
    const read = readJob(
      `job: x\nunits: mm\nfaces:\n  f:\n    centre: ${centre}\n    up: S1\n    ` +
        `features:\n${[1, 2, 3, 4].map((i) => `      S${i}: { kind: hole, diameter: 8 }\n`).join('')}    ` +
        `readings:\n${places.join('\n')}\n`,
    );
    if (!read.ok) throw new Error(read.faults.map((f) => f.expected).join('\n'));
    const [face] = read.job.faces;
    if (face === undefined) throw new Error('no face');
    return locateFace({ face, instruments: read.job.instruments }, { next: false });
  };

  test('is the origin, and says so', () => {
    const located = job('{ circle: [S1, S2, S3] }');
    expect(located.frame).toEqual({
      origin: 'the centre of the circle of S1, S2 and S3',
      up: 'S1',
      circled: ['S1', 'S2', 'S3'],
    });
    for (const f of located.features.values()) expect(Math.hypot(f.x, f.y)).toBeCloseTo(60, 4);
    expect(located.features.get('S1')?.x).toBeCloseTo(0, 6);
  });

  /**
   * Three at 120°: dc = ⅔ Σ uᵢ (uᵢ · dpᵢ), so that S1 at the top has (1 − ⅔)² + 2 (⅔ · ½)² = ⅓ of one place's variance
   * along up.
   */
  test('its own ± is in the others’: less about the centre than each place alone', () => {
    const y = job('{ circle: [S1, S2, S3] }').features.get('S1')?.covariance[1][1] ?? 0;
    expect(y / 0.02 ** 2).toBeCloseTo(1 / 3, 2);
  });

  test.each([
    ['{ circle: [S1, S2] }', /three different features/],
    ['{ circle: [S1, S2, Q] }', /a feature of this face/],
  ])('%s is refused', (centre, expected) => expect(() => job(centre)).toThrow(expected));
});
