import { apply, flipX, randomFrom, rotation } from '@fayplate/core';
import type { Face, Feature, Reading } from '@fayplate/job';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { LocatedFace, Survey } from '../src/index.js';
import { networkOf } from '../src/network/network.js';
import { everyKindShop } from './shops.js';
import { simulate, truthVector, type Truth } from './simulate.js';
import { locateFrom, within } from './support.js';

const runs = { seed: 90_210, numRuns: 10 } as const;
const aSeed = fc.integer({ min: 1, max: 1_000_000 });

interface Taken {
  readonly survey: Survey;
  readonly truth: Truth;
}

const take = (seed: number): Taken => {
  const random = randomFrom(seed);
  const shop = everyKindShop(6 + random.below(5), random);
  return { survey: simulate(shop.template, shop.truth, random).survey, truth: shop.truth };
};

const locateNear = ({ survey, truth }: Taken): LocatedFace => locateFrom(survey, truthVector(networkOf(survey), truth));

const withFace = (s: Survey, change: (f: Face) => Face): Survey => ({ ...s, face: change(s.face) });
const eachReading = (s: Survey, change: (r: Reading) => Reading): Survey =>
  withFace(s, (f) => ({ ...f, readings: f.readings.map(change) }));
const eachFeature = (s: Survey, change: (r: Feature) => Feature): Survey =>
  withFace(s, (f) => ({ ...f, features: f.features.map(change) }));

/** Largest difference of coordinates after `change`, mm, and of w. */
const apart = (
  a: LocatedFace,
  b: LocatedFace,
  change: (p: { x: number; y: number }) => { x: number; y: number } = (p) => p,
  name: (id: string) => string = (id) => id,
): number => {
  let most = 0;
  for (const [id, f] of a.features) {
    const g = b.features.get(name(id));
    const p = change(f);
    most = Math.max(most, Math.hypot(p.x - (g?.x ?? Number.NaN), p.y - (g?.y ?? Number.NaN)));
  }
  return Number.isNaN(most) || a.features.size !== b.features.size ? Number.POSITIVE_INFINITY : most;
};

/** Largest difference of |w|; x and y of `at` share their error out by how the bench lies, and count together only. */
const wApart = (a: LocatedFace, b: LocatedFace): number => {
  const of = (f: LocatedFace): readonly number[] =>
    f.readings
      .map((r) => (r.redundancy > 1e-3 && r.kind !== 'at' ? Math.abs(r.standardized ?? 0) : 0))
      .sort((p, q) => p - q);
  const [p, q] = [of(a), of(b)];
  return Math.max(...p.map((w, i) => Math.abs(w - (q[i] ?? Number.NaN))));
};

describe('an answer does not hang on how the shop wrote it down', () => {
  test('every kind of reading takes part, and all is fixed', () => {
    const { survey } = take(7);
    expect(new Set(survey.face.readings.map((r) => r.kind)).size).toBe(13);
    const located = locateNear(take(7));
    expect(located.stopped.converged).toBe(true);
    expect(located.undetermined).toEqual([]);
    expect(located.fit.sumRedundancy).toBeCloseTo(located.fit.dof, 8);
  });

  test('turning the bench under the part', () => {
    fc.assert(
      fc.property(aSeed, within(-3, 3), within(-500, 500), (seed, turn, shift) => {
        const shop = take(seed);
        const motion = { turn, mirrored: false, shift: { x: shift, y: 2 * shift } };
        const other = eachReading(shop.survey, (r) => (r.point === null ? r : { ...r, point: apply(motion, r.point) }));
        const truth: Truth = new Map([...shop.truth].map(([id, t]) => [id, { ...t, ...apply(motion, t) }]));
        const [a, b] = [locateNear(shop), locateNear({ survey: other, truth })];
        expect(apart(a, b)).toBeLessThan(1e-8);
        expect(wApart(a, b)).toBeLessThan(1e-6);
      }),
      runs,
    );
  });

  test('a mirror: x changes sign', () => {
    fc.assert(
      fc.property(aSeed, (seed) => {
        const shop = take(seed);
        const mirrored = eachFeature(
          eachReading(shop.survey, (r) => (r.point === null ? r : { ...r, point: apply(flipX, r.point) })),
          (f) => ({ ...f, clock: f.clock === null ? null : Math.PI - f.clock }),
        );
        const truth: Truth = new Map([...shop.truth].map(([id, t]) => [id, { ...t, ...apply(flipX, t) }]));
        const [a, b] = [locateNear(shop), locateNear({ survey: mirrored, truth })];
        expect(apart(a, b, (p) => ({ x: -p.x, y: p.y }))).toBeLessThan(1e-8);
        expect(a.hand).toEqual(b.hand);
      }),
      runs,
    );
  });

  test('names, and the order of features and readings', () => {
    fc.assert(
      fc.property(aSeed, (seed) => {
        const shop = take(seed);
        const name = (id: string): string => `x${id}`;
        const renamed = withFace(shop.survey, (f) => ({
          ...f,
          centre: f.centre === null ? null : name(f.centre),
          up: f.up === null ? null : name(f.up),
          features: f.features.toReversed().map((g) => ({ ...g, id: name(g.id) })),
          readings: f.readings.toReversed().map((r) => ({ ...r, features: r.features.map(name) })),
        }));
        const truth: Truth = new Map([...shop.truth].map(([id, t]) => [name(id), t]));
        const [a, b] = [locateNear(shop), locateNear({ survey: renamed, truth })];
        expect(apart(a, b, undefined, name)).toBeLessThan(1e-8);
        expect(wApart(a, b)).toBeLessThan(1e-6);
        expect(b.suspects.map((s) => s.reading)).toEqual(
          a.suspects.map((s) =>
            s.reading.startsWith('diameter ') ? `diameter ${name(s.reading.slice(9))}` : s.reading,
          ),
        );
      }),
      runs,
    );
  });

  test.each([1e-3, 1 / 25.4, 25.4, 1e4])('the unit: everything times %d', (k) => {
    fc.assert(
      fc.property(aSeed, (seed) => {
        const shop = take(seed);
        const scaled = eachFeature(
          eachReading(shop.survey, (r) => ({
            ...r,
            value: r.kind === 'angle' || r.kind === 'square' ? r.value : r.value * k,
            plusMinus: r.kind === 'angle' || r.kind === 'square' ? r.plusMinus : r.plusMinus * k,
            point: r.point === null ? null : { x: r.point.x * k, y: r.point.y * k },
          })),
          (f) => ({
            ...f,
            diameter:
              f.diameter === null
                ? null
                : {
                    value: f.diameter.value * k,
                    plusMinus: f.diameter.plusMinus === null ? null : f.diameter.plusMinus * k,
                  },
          }),
        );
        const instruments = new Map(
          [...shop.survey.instruments].map(([n, i]) => [
            n,
            i.measures === 'angle' ? i : { ...i, each: i.each * k, zero: i.zero === null ? null : i.zero * k },
          ]),
        );
        const truth: Truth = new Map([...shop.truth].map(([id, t]) => [id, { x: t.x * k, y: t.y * k, r: t.r * k }]));
        const [a, b] = [locateNear(shop), locateNear({ survey: { ...scaled, instruments }, truth })];
        expect(b.fit.dof).toBe(a.fit.dof);
        expect(apart(a, b, (p) => ({ x: p.x * k, y: p.y * k })) / k).toBeLessThan(1e-8);
        expect(wApart(a, b)).toBeLessThan(1e-6);
        expect(b.undetermined).toEqual(a.undetermined);
      }),
      { ...runs, numRuns: 4 },
    );
  });

  test('a bench turned by a right angle without its readings would be seen', () => {
    const shop = take(3);
    const skewed = eachReading(shop.survey, (r) =>
      r.kind === 'at' && r.point !== null ? { ...r, point: apply(rotation(Math.PI / 180), r.point) } : r,
    );
    expect(apart(locateNear(shop), locateNear({ ...shop, survey: skewed }))).toBeGreaterThan(1e-4);
  });
});
