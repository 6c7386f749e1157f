import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type Cut, type Slice, cutVolume, spineDistance } from '../../src/solids/cut.js';
import { endGap, sharedReach, webBetween } from '../../src/solids/gap.js';
import { aPlace, seeded, within } from '../support/seeds.js';

const slices = fc
  .record({
    levels: fc.uniqueArray(fc.integer({ min: 0, max: 20 }), { minLength: 2, maxLength: 4 }),
    radii: fc.array(within(1, 12), { minLength: 8, maxLength: 8 }),
  })
  .map(({ levels, radii }): readonly Slice[] => {
    const z = levels.toSorted((a, b) => a - b);
    return z.slice(1).map((z1, i) => ({ z0: z[i] ?? 0, z1, r0: radii[2 * i] ?? 1, r1: radii[2 * i + 1] ?? 1 }));
  });
const aSpine = fc.oneof(
  aPlace.map((p) => [p, p] as const),
  fc.tuple(aPlace, aPlace).map(([a, b]) => [a, { x: a.x + b.x / 15, y: a.y + b.y / 15 }] as const),
);
const small = fc.record({ x: within(-25, 25), y: within(-25, 25) });
const near = fc.oneof(
  small.map((p) => [p, p] as const),
  fc.tuple(small, small).map(([a, b]) => [a, { x: a.x + b.x / 3, y: a.y + b.y / 3 }] as const),
);
const aCut = (spine: fc.Arbitrary<Cut['spine']>): fc.Arbitrary<Cut> =>
  fc.record({
    id: fc.constant('H1'),
    what: fc.constant('hole' as const),
    spine,
    slices,
    turns: fc.boolean(),
    nominal: fc.constant(null),
  });

type Voxel = readonly [number, number, number];
/** Distance to a spine written out anew, so that nothing of the room under test decides what is inside. */
const toSpine = (x: number, y: number, [a, b]: Cut['spine']): number => {
  let least = Infinity;
  for (let k = 0; k <= 24; k++)
    least = Math.min(least, Math.hypot(x - a.x - ((b.x - a.x) * k) / 24, y - a.y - ((b.y - a.y) * k) / 24));
  return least;
};
const radiusAt = (cut: Cut, z: number): number =>
  Math.max(
    0,
    ...cut.slices.filter((s) => z >= s.z0 && z <= s.z1).map((s) => s.r0 + ((s.r1 - s.r0) * (z - s.z0)) / (s.z1 - s.z0)),
  );

/** Little cubes whose middles lie in the cut, at z in steps of 1 and x, y in steps of `step`. */
const voxels = (cut: Cut, step: number): readonly Voxel[] => {
  const out: Voxel[] = [];
  const xs = cut.spine.map((p) => p.x);
  const ys = cut.spine.map((p) => p.y);
  for (let z = 0.5; z < 20; z += 1) {
    const r = radiusAt(cut, z);
    if (r === 0) continue;
    for (let x = Math.floor((Math.min(...xs) - r) / step) * step; x <= Math.max(...xs) + r; x += step)
      for (let y = Math.floor((Math.min(...ys) - r) / step) * step; y <= Math.max(...ys) + r; y += step)
        if (toSpine(x, y, cut.spine) <= r) out.push([x, y, z]);
  }
  return out;
};

describe('web between two cuts', () => {
  test('is what little cubes leave between them, level by level', () => {
    fc.assert(
      fc.property(aCut(near), aCut(near), (a, b) => {
        const step = 1;
        const [va, vb] = [voxels(a, step), voxels(b, step)];
        let least = Infinity;
        for (const p of va)
          for (const q of vb) if (p[2] === q[2]) least = Math.min(least, Math.hypot(p[0] - q[0], p[1] - q[1]));
        // At the middles of the cubes' own levels, worked out for the two radii there.
        const levels = Array.from({ length: 20 }, (_, i) => i + 0.5).filter(
          (z) => radiusAt(a, z) > 0 && radiusAt(b, z) > 0,
        );
        const web = webBetween(a, b);
        expect(web === null).toBe(levels.length === 0);
        if (web === null || least === Infinity) return;
        // Cubes lie inside the solids, and the solids reach past them by no more than a cube's diagonal each.
        expect(least).toBeGreaterThan(web - 1e-9);
        const atLevels =
          spineDistance(a.spine, b.spine) - Math.max(...levels.map((z) => radiusAt(a, z) + radiusAt(b, z)));
        expect(web).toBeLessThanOrEqual(atLevels + 1e-9);
        expect(least).toBeLessThan(Math.max(atLevels, 0) + 2 * Math.SQRT2 * step + 0.4);
      }),
      { ...seeded, numRuns: 15 },
    );
  });

  test('where it is negative some level has a place in both', () => {
    fc.assert(
      fc.property(aCut(near), aCut(near), (a, b) => {
        const web = webBetween(a, b);
        fc.pre(web !== null && web < -2.2);
        const inB = new Set(voxels(b, 0.5).map((v) => v.map((c) => c.toFixed(2)).join(' ')));
        // Slices that only touch a level's middle may be narrower there: what counts is the whole slice, so look
        // finely.
        const reachAtLevels = Math.max(
          ...Array.from({ length: 20 }, (_, i) => i + 0.5)
            .filter((z) => radiusAt(a, z) > 0 && radiusAt(b, z) > 0)
            .map((z) => radiusAt(a, z) + radiusAt(b, z)),
        );
        fc.pre(spineDistance(a.spine, b.spine) - reachAtLevels < -1.5);
        expect(voxels(a, 0.5).some((v) => inB.has(v.map((c) => c.toFixed(2)).join(' ')))).toBe(true);
      }),
      { ...seeded, numRuns: 12 },
    );
  });

  test('is the same from either side, and when both are turned or shifted', () => {
    fc.assert(
      fc.property(aCut(aSpine), aCut(aSpine), within(-3, 3), aPlace, (a, b, turn, shift) => {
        const move = (c: Cut): Cut => ({
          ...c,
          spine: c.spine.map((p) => ({
            x: Math.cos(turn) * p.x - Math.sin(turn) * p.y + shift.x,
            y: Math.sin(turn) * p.x + Math.cos(turn) * p.y + shift.y,
          })) as unknown as Cut['spine'],
        });
        expect(webBetween(a, b)).toEqual(webBetween(b, a));
        expect(sharedReach(move(a), move(b))).toBe(sharedReach(a, b));
        expect(webBetween(move(a), move(b)) ?? 0).toBeCloseTo(webBetween(a, b) ?? 0, 9);
      }),
      seeded,
    );
  });

  const at = (x: number, ...own: readonly Slice[]): Cut => ({
    id: 'H1',
    what: 'hole',
    spine: [
      { x, y: 0 },
      { x, y: 0 },
    ],
    slices: own,
    turns: false,
    nominal: null,
  });
  const counterbored = (x: number, side: 'A' | 'B'): Cut =>
    side === 'B'
      ? at(x, { z0: 0, z1: 11, r0: 4.5, r1: 4.5 }, { z0: 11, z1: 20, r0: 10, r1: 10 })
      : at(x, { z0: 0, z1: 9, r0: 10, r1: 10 }, { z0: 9, z1: 20, r0: 4.5, r1: 4.5 });

  test('by hand: counterbores on the same side, and on opposite sides', () => {
    // 22 apart, both 20 wide above: 22 − 10 − 10.
    expect(webBetween(counterbored(0, 'B'), counterbored(22, 'B'))).toBeCloseTo(2, 12);
    // From opposite sides they share no depth but with the other's hole: 22 − 10 − 4.5.
    expect(webBetween(counterbored(0, 'B'), counterbored(22, 'A'))).toBeCloseTo(7.5, 12);
  });

  test('by hand: a blind hole that ends above a counterbore shares no depth with it, and its end is as near as the slant', () => {
    const blind = at(8, { z0: 12, z1: 20, r0: 4, r1: 4 });
    const pocket = at(0, { z0: 0, z1: 9, r0: 10, r1: 10 });
    expect(webBetween(blind, pocket)).toBeNull();
    expect(endGap(blind, pocket)).toBeCloseTo(3, 12);
    // Moved out by 20: 6 mm level from rim to rim and 3 mm up.
    expect(endGap(at(20, { z0: 12, z1: 20, r0: 4, r1: 4 }), pocket)).toBeCloseTo(Math.hypot(6, 3), 12);
  });

  test('a cone is as wide as it is at each depth', () => {
    const cone = at(0, { z0: 10, z1: 20, r0: 4, r1: 9 });
    expect(webBetween(cone, at(20, { z0: 0, z1: 12, r0: 5, r1: 5 }))).toBeCloseTo(20 - 5 - 5, 12);
    expect(webBetween(cone, at(20, { z0: 0, z1: 20, r0: 5, r1: 5 }))).toBeCloseTo(20 - 5 - 9, 12);
  });
});

describe('metal between ends', () => {
  test('is the distance between points all over both surfaces', () => {
    const shell = (c: Cut): readonly Voxel[] =>
      c.slices.flatMap((s) =>
        Array.from({ length: 9 }, (_, i) => s.z0 + ((s.z1 - s.z0) * i) / 8).flatMap((z) =>
          [0, 0.25, 0.5, 0.75, 1].flatMap((k) =>
            Array.from({ length: 48 }, (_, j): Voxel => {
              const r = k * (s.r0 + ((s.r1 - s.r0) * (z - s.z0)) / (s.z1 - s.z0));
              return [
                c.spine[0].x + r * Math.cos((j * Math.PI) / 24),
                c.spine[0].y + r * Math.sin((j * Math.PI) / 24),
                z,
              ];
            }),
          ),
        ),
      );
    const one = (z0: number, z1: number) =>
      fc
        .record({ x: within(-15, 15), y: within(-15, 15), r0: within(1, 10), r1: within(0.5, 10) })
        .map(({ x, y, r0, r1 }): Cut => ({
          id: 'H1',
          what: 'hole',
          spine: [
            { x, y },
            { x, y },
          ],
          slices: [{ z0, z1, r0, r1 }],
          turns: false,
          nominal: null,
        }));
    fc.assert(
      fc.property(one(0, 8), one(11, 20), (a, b) => {
        const gap = endGap(a, b) ?? Number.NaN;
        let least = Infinity;
        const sb = shell(b);
        for (const p of shell(a))
          for (const q of sb) least = Math.min(least, Math.hypot(p[0] - q[0], p[1] - q[1], p[2] - q[2]));
        expect(gap).toBeLessThanOrEqual(least + 1e-9);
        expect(least - gap).toBeLessThan(0.9);
      }),
      { ...seeded, numRuns: 4 },
    );
  });
});

describe('volume', () => {
  test('by hand: a cylinder, a cone and a slot', () => {
    const spine: Cut['spine'] = [
      { x: 0, y: 0 },
      { x: 0, y: 0 },
    ];
    const cut = (own: readonly Slice[], s: Cut['spine'] = spine): Cut => ({
      id: 'H1',
      what: 'hole',
      spine: s,
      slices: own,
      turns: false,
      nominal: null,
    });
    expect(cutVolume(cut([{ z0: 0, z1: 10, r0: 5, r1: 5 }]))).toBeCloseTo(250 * Math.PI, 9);
    expect(cutVolume(cut([{ z0: 0, z1: 3, r0: 5, r1: 0 }]))).toBeCloseTo(25 * Math.PI, 9);
    expect(
      cutVolume(
        cut(
          [{ z0: 0, z1: 10, r0: 5, r1: 5 }],
          [
            { x: 0, y: 0 },
            { x: 4, y: 0 },
          ],
        ),
      ),
    ).toBeCloseTo(250 * Math.PI + 400, 9);
  });
});
