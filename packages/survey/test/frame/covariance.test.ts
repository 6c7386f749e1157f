import { randomFrom } from '@fayplate/core';
import type { Face } from '@fayplate/job';
import { Matrix, pseudoInverse } from 'ml-matrix';
import { describe, expect, test } from 'vitest';
import { adjust } from '../../src/adjust/adjust.js';
import { datumOf } from '../../src/frame/datum.js';
import { inDatum } from '../../src/frame/placed.js';
import { locateFace } from '../../src/index.js';
import { networkOf } from '../../src/network/network.js';
import { everyKindShop, ringShop } from '../shops.js';
import { simulate, truthVector } from '../simulate.js';
import { locateFrom } from '../support.js';

const frames: readonly (readonly [string, Partial<Face>])[] = [
  ['centre and up', { centre: 'S', up: 'P1' }],
  ['centre and across', { centre: 'S', up: null, across: ['P4', 'P2'] }],
  ['across alone: its first feature is the origin', { centre: null, up: null, across: ['P4', 'P2'] }],
  ['centre, direction by the clocks', { centre: 'S', up: null }],
  ['up alone: the origin is the mean of the centres', { centre: null, up: 'P1' }],
  ['neither: mean of the centres, direction by the clocks', { centre: null, up: null }],
];

const shops = [
  ['a ring without bench readings', ringShop],
  ['every kind of reading', everyKindShop],
] as const;

describe.each(shops)('%s', (_, makeShop) => {
  test.each(frames)(
    '%s: covariances against a pseudo-inverse and a frame differentiated numerically',
    (_name, parts) => {
      const random = randomFrom(77);
      const shop = makeShop(7, random);
      const taken = simulate(shop.template, shop.truth, random).survey;
      const survey = { ...taken, face: { ...taken.face, ...parts } };
      const network = networkOf(survey);
      const located = locateFrom(survey, truthVector(network, shop.truth));
      expect(located.undetermined).toEqual([]);
      const { values } = adjust(network, truthVector(network, shop.truth));
      const ids = [...network.unknowns.features.keys()];
      const coordinates = (x: Float64Array): readonly number[] => {
        const datum = datumOf(network.face, network.unknowns, x, ids);
        return [...network.unknowns.features.values()].flatMap((s) => {
          const { point } = inDatum(datum, x, s);
          return [point.x, point.y];
        });
      };
      const count = network.unknowns.count;
      const slopes = Matrix.zeros(2 * ids.length, count);
      for (let u = 0; u < count; u++) {
        const h = 1e-4;
        const [up, down] = [h, -h].map((d) => coordinates(values.map((v, i) => (i === u ? v + d : v))));
        for (const [row, v] of (up ?? []).entries()) slopes.set(row, u, (v - (down?.[row] ?? 0)) / (2 * h));
      }
      const normal = Matrix.zeros(count, count);
      for (const o of network.observations) {
        const g = new Float64Array(o.unknowns.length);
        o.model(values, g);
        for (const [a, u] of o.unknowns.entries())
          for (const [b, v] of o.unknowns.entries())
            normal.set(u, v, normal.get(u, v) + ((g[a] ?? 0) * (g[b] ?? 0)) / o.sigma ** 2);
      }
      // Scaled so that radians and millimetres weigh alike in the pseudo-inverse.
      const scale = normal.diagonal().map((d) => 1 / Math.sqrt(d));
      const scaled = new Matrix(count, count);
      for (let i = 0; i < count; i++)
        for (let j = 0; j < count; j++) scaled.set(i, j, normal.get(i, j) * (scale[i] ?? 0) * (scale[j] ?? 0));
      const inverse = pseudoInverse(scaled, 1e-10);
      const g = slopes.clone();
      for (let i = 0; i < g.rows; i++) for (let j = 0; j < count; j++) g.set(i, j, g.get(i, j) * (scale[j] ?? 0));
      const want = g.mmul(inverse).mmul(g.transpose());
      const got = located.covarianceOf(ids);
      const most = Math.max(...want.diagonal());
      for (const [i, line] of got.entries()) {
        for (const [j, v] of line.entries()) expect(Math.abs(v - want.get(i, j)) / most).toBeLessThan(1e-6);
      }
      for (const [k, id] of ids.entries()) {
        const c = located.features.get(id)?.covariance;
        for (const i of [0, 1] as const)
          for (const j of [0, 1] as const)
            expect(Math.abs((c?.[i]?.[j] ?? Number.NaN) - (got[2 * k + i]?.[2 * k + j] ?? Number.NaN))).toBeLessThan(
              1e-9 * most,
            );
      }
    },
  );
});

describe('a frame is exact by choice', () => {
  const random = randomFrom(5);
  const shop = ringShop(6, random);
  const { survey, start } = simulate(shop.template, shop.truth, random);
  const locate = (parts: Partial<Face>) => locateFrom({ ...survey, face: { ...survey.face, ...parts } }, start);

  test('origin and up', () => {
    const { features, frame } = locate({});
    expect(frame).toEqual({ origin: 'S', up: 'P1' });
    expect(features.get('S')).toMatchObject({
      x: 0,
      y: 0,
      covariance: [
        [0, 0],
        [0, 0],
      ],
      ellipse95: { major: 0, minor: 0 },
    });
    expect(features.get('P1')?.x).toBe(0);
    expect(features.get('P1')?.y).toBeGreaterThan(0);
    expect(features.get('P1')?.covariance[0]).toEqual([0, 0]);
    expect(features.get('P1')?.ellipse95.minor).toBe(0);
  });

  test('across from its origin', () => {
    const { features, frame } = locate({ centre: null, up: null, across: ['P4', 'P2'] });
    expect(frame).toEqual({ across: ['P4', 'P2'], origin: 'P4' });
    expect(features.get('P4')).toMatchObject({ x: 0, y: 0 });
    expect(features.get('P2')?.y).toBe(0);
    expect(features.get('P2')?.x).toBeGreaterThan(0);
  });

  test('across with a centre of its own: both stand level, neither exactly', () => {
    const { features } = locate({ up: null, across: ['P4', 'P2'] });
    expect(features.get('S')).toMatchObject({ x: 0, y: 0 });
    expect((features.get('P2')?.y ?? 0) - (features.get('P4')?.y ?? 1)).toBeCloseTo(0, 9);
    expect(features.get('P2')?.covariance[1][1]).toBeGreaterThan(0);
  });

  test('the mean of the centres is the origin, and the clocks agree on the whole', () => {
    const { features } = locate({ centre: null, up: null });
    const all = [...features.values()];
    expect(all.reduce((s, f) => s + f.x, 0)).toBeCloseTo(0, 9);
    expect(all.reduce((s, f) => s + f.y, 0)).toBeCloseTo(0, 9);
    const off = all.flatMap((f) => {
      const clock = survey.face.features.find((g) => g.id === f.id)?.clock ?? null;
      return clock === null
        ? []
        : [Math.atan2(Math.sin(Math.atan2(f.y, f.x) - clock), Math.cos(Math.atan2(f.y, f.x) - clock))];
    });
    expect(off.reduce((s, o) => s + o, 0)).toBeCloseTo(0, 9);
  });

  test('one hour written wrongly by far does not turn the face', () => {
    const plain = locate({ up: null });
    const slipped = locateFace({
      ...survey,
      face: {
        ...survey.face,
        up: null,
        features: survey.face.features.map((f) =>
          f.id === 'P3' && f.clock !== null ? { ...f, clock: f.clock + 2.8 } : f,
        ),
      },
    });
    const turn = (a: { x: number; y: number }, b: { x: number; y: number }): number =>
      Math.atan2(a.x * b.y - a.y * b.x, a.x * b.x + a.y * b.y);
    expect(Math.abs(turn(plain.features.get('P1')!, slipped.features.get('P1')!))).toBeLessThan(0.15);
  });

  test('covarianceOf refuses a feature that is not located', () => {
    expect(() => locate({}).covarianceOf(['P1', 'P99'])).toThrow(RangeError);
  });
});
