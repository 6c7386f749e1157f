import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { DEGREE, randomFrom } from '@fayplate/core';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { mate } from '../../src/index.js';
import { face, feature, jobOf, patternOf, plateSpec, usedOf } from '../support/faces.js';
import { aPlace, aTurn, aView, seeded } from '../support/seeds.js';

type Pair = readonly [number, number];
interface Solved {
  readonly clocking: number;
  readonly holes: Readonly<Record<string, Pair>>;
  readonly pattern: Readonly<
    Record<
      'pump' | 'motor',
      { readonly names: readonly string[]; readonly X: readonly Pair[]; readonly C: readonly (readonly number[])[] }
    >
  >;
}

const solved = (name: string): Solved =>
  JSON.parse(readFileSync(join(import.meta.dirname, '../../../../test/cases', `${name}.json`), 'utf8')) as Solved;

/** The cases' own patterns, laid by `mate`. */
const laid = (name: string, secondView: 'from outside' | 'from behind') => {
  const s = solved(name);
  const pattern = (f: 'pump' | 'motor') =>
    patternOf(
      Object.fromEntries(
        s.pattern[f].names.map((n, i) => [n, { x: s.pattern[f].X[i]?.[0] ?? 0, y: s.pattern[f].X[i]?.[1] ?? 0 }]),
      ),
      {},
      s.pattern[f].C,
    );
  const faces = [
    face(
      'pump',
      s.pattern.pump.names.map((n) => feature(n, 'stud')),
    ),
    face(
      'motor',
      s.pattern.motor.names.map((n) => feature(n, 'hole')),
      { viewed: secondView },
    ),
  ];
  return {
    s,
    mated: mate(
      jobOf(faces, plateSpec(['pump', 'motor'], { clocking: { at: s.clocking * DEGREE } })),
      usedOf({ pump: pattern('pump'), motor: pattern('motor') }),
    ),
  };
};

describe('cases solved by an independent program', () => {
  test.each([
    ['plt02-turned', 'from outside'],
    ['plt04-second-behind', 'from behind'],
  ] as const)('%s: every hole lies where it says', (name, view) => {
    const { s, mated } = laid(name, view);
    const ours = Object.fromEntries(
      mated.flatMap((m) => m.pattern.ids.map((id, i) => [`${m.face}.${id}`, m.pattern.points[i]])),
    );
    expect(Object.keys(ours).sort()).toEqual(Object.keys(s.holes).sort());
    for (const [id, [x, y]] of Object.entries(s.holes)) {
      expect(Math.hypot((ours[id]?.x ?? Number.NaN) - x, (ours[id]?.y ?? Number.NaN) - y)).toBeLessThan(1e-6);
    }
  });
});

describe('covariance', () => {
  test('is that of the moved points, by simulation', () => {
    const random = randomFrom(11);
    const root = [
      [0.3, 0, 0, 0],
      [0.1, 0.2, 0, 0],
      [-0.05, 0.1, 0.25, 0],
      [0.02, -0.1, 0.05, 0.1],
    ];
    const c = root.map((a) => root.map((b) => a.reduce((s, v, k) => s + v * (b[k] ?? 0), 0)));
    const at = { P: { x: 40, y: 10 }, Q: { x: -20, y: 30 } };
    const lay = (places: typeof at, cov?: typeof c) =>
      mate(
        jobOf(
          [face('pump', []), face('motor', [feature('P', 'hole'), feature('Q', 'hole')])],
          plateSpec(['pump', 'motor'], { clocking: { at: 0.7 } }),
        ),
        usedOf({ pump: patternOf({}), motor: patternOf(places, {}, cov) }),
      )[1].pattern;
    const told = lay(at, c).covariance;
    const mean = lay(at).points.flatMap((p) => [p.x, p.y]);
    const n = 40_000;
    const sum = told.map((row) => row.map(() => 0));
    for (let i = 0; i < n; i++) {
      const z = [random.normal(), random.normal(), random.normal(), random.normal()];
      const e = root.map((row) => row.reduce((s, v, k) => s + v * (z[k] ?? 0), 0));
      const moved = lay({
        P: { x: 40 + (e[0] ?? 0), y: 10 + (e[1] ?? 0) },
        Q: { x: -20 + (e[2] ?? 0), y: 30 + (e[3] ?? 0) },
      });
      const d = moved.points.flatMap((p) => [p.x, p.y]).map((v, k) => v - (mean[k] ?? 0));
      for (const [r, row] of sum.entries())
        for (const k of row.keys()) row[k] = (row[k] ?? 0) + ((d[r] ?? 0) * (d[k] ?? 0)) / n;
    }
    // Four standard errors of a simulated covariance of these sizes.
    for (const [r, row] of told.entries())
      for (const [k, v] of row.entries())
        expect(Math.abs((sum[r]?.[k] ?? Number.NaN) - v)).toBeLessThan((4 * 0.15) / Math.sqrt(n));
  });

  test('keeps its trace and stays symmetric; distances keep too', () => {
    fc.assert(
      fc.property(
        fc.array(aPlace, { minLength: 2, maxLength: 5 }),
        aView,
        aTurn,
        fc.array(fc.double({ min: -1, max: 1, noNaN: true }), { minLength: 100, maxLength: 100 }),
        (points, viewed, at, noise) => {
          const n = 2 * points.length;
          const root = Array.from({ length: n }, (_, i) => Array.from({ length: n }, (_, j) => noise[i * 10 + j] ?? 0));
          const c = root.map((a) => root.map((b) => a.reduce((s, v, k) => s + v * (b[k] ?? 0), 0)));
          const places = Object.fromEntries(points.map((p, i) => [`P${i}`, p]));
          const faces = [
            face('pump', []),
            face(
              'motor',
              points.map((_, i) => feature(`P${i}`, 'hole')),
              { viewed },
            ),
          ];
          const moved = mate(
            jobOf(faces, plateSpec(['pump', 'motor'], { clocking: { at } })),
            usedOf({ pump: patternOf({}), motor: patternOf(places, {}, c) }),
          )[1].pattern;
          const trace = (m: readonly (readonly number[])[]) => m.reduce((s, row, i) => s + (row[i] ?? 0), 0);
          expect(trace(moved.covariance)).toBeCloseTo(trace(c), 9);
          for (const [i, row] of moved.covariance.entries())
            for (const [j, v] of row.entries()) expect(v).toBeCloseTo(moved.covariance[j]?.[i] ?? Number.NaN, 12);
          const far = (p: readonly { x: number; y: number }[]) =>
            Math.hypot((p[0]?.x ?? 0) - (p[1]?.x ?? 0), (p[0]?.y ?? 0) - (p[1]?.y ?? 0));
          expect(far(moved.points)).toBeCloseTo(far(points), 9);
        },
      ),
      seeded,
    );
  });
});
