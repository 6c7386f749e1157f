import { apply, DEGREE, rotation } from '@fayplate/core';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { pairTest } from '../../src/clocking/pairs.js';
import { spansOf } from '../../src/clocking/angle-test.js';
import { nearestTurn, widest } from '../../src/clocking/best.js';
import { type Cut, spineDistance } from '../../src/solids/cut.js';
import type { AngleSpan } from '../../src/types.js';
import { aPlace, seeded, within } from '../support/seeds.js';

const round = fc.tuple(aPlace, within(3, 25)).map(([p, r]) => ({ spine: [p, p] as const, r }));
const slot = fc.tuple(aPlace, within(-3, 3), within(1, 40), within(3, 12)).map(([p, angle, length, r]) => ({
  spine: [p, { x: p.x + length * Math.cos(angle), y: p.y + length * Math.sin(angle) }] as const,
  r,
}));
const shape = fc.oneof(round, slot);
const cut = (id: string, s: { readonly spine: Cut['spine']; readonly r: number }, turns: boolean): Cut => ({
  id,
  what: 'hole',
  spine: s.spine,
  slices: [{ z0: 0, z1: 20, r0: s.r, r1: s.r }],
  turns,
  nominal: null,
});
const pair = (a: Cut, b: Cut, limit: number) => ({
  a,
  b,
  reach: (a.slices[0]?.r0 ?? 0) + (b.slices[0]?.r0 ?? 0),
  limit,
  source: '',
  within: null,
});
const range: AngleSpan = { from: -Math.PI, to: Math.PI };

/** Brute force: the web after turning every point clockwise, at an angle. */
const webAt = (fixed: Cut, moving: Cut, clocking: number): number => {
  const turned = moving.spine.map((p) => apply(rotation(-clocking), p)) as unknown as Cut['spine'];
  return spineDistance(fixed.spine, turned) - (fixed.slices[0]?.r0 ?? 0) - (moving.slices[0]?.r0 ?? 0);
};
const inside = (a: number, spans: readonly AngleSpan[]): boolean => spans.some((s) => a >= s.from && a <= s.to);
const nearEnd = (a: number, spans: readonly AngleSpan[], by: number): boolean =>
  spans.some((s) => Math.abs(a - s.from) < by || Math.abs(a - s.to) < by);

describe('angles at which a web holds', () => {
  test('agree with turning the cuts at 1,800 angles', () => {
    fc.assert(
      fc.property(shape, shape, within(0, 6), (f, m, limit) => {
        const fixed = cut('H1', f, false);
        const moving = cut('H2', m, true);
        const spans = spansOf(pairTest(pair(fixed, moving, limit), 0), range);
        const wrong = Array.from({ length: 1800 }, (_, k) => -Math.PI + (2 * Math.PI * (k + 0.37)) / 1800).filter(
          (angle) => {
            const spare = webAt(fixed, moving, angle) - limit;
            // A web that only just touches its limit may be told either way.
            return Math.abs(spare) > 1e-6 && !nearEnd(angle, spans, 1e-6) && inside(angle, spans) !== spare > 0;
          },
        );
        expect(wrong).toEqual([]);
      }),
      { ...seeded, numRuns: 60 },
    );
  });

  test('at each end the web is the limit, to far better than 0.001°', () => {
    fc.assert(
      fc.property(round, round, within(0, 6), (f, m, limit) => {
        const fixed = cut('H1', f, false);
        const moving = cut('H2', m, true);
        const spans = spansOf(pairTest(pair(fixed, moving, limit), 0), range);
        const ends = spans.flatMap((s) => [s.from, s.to]).filter((a) => Math.abs(Math.abs(a) - Math.PI) > 1e-9);
        for (const end of ends) expect(Math.abs(webAt(fixed, moving, end) - limit)).toBeLessThan(1e-5);
      }),
      seeded,
    );
  });

  test('do not depend on the angle at which the cuts were drawn', () => {
    fc.assert(
      fc.property(round, shape, within(-3, 3), (f, m, drawnAt) => {
        const fixed = cut('H1', f, false);
        const drawn: Cut = {
          ...cut('H2', m, true),
          spine: m.spine.map((p) => apply(rotation(-drawnAt), p)) as unknown as Cut['spine'],
        };
        const one = spansOf(pairTest(pair(fixed, cut('H2', m, true), 3), 0), range);
        const other = spansOf(pairTest(pair(fixed, drawn, 3), drawnAt), range);
        expect(other.length).toBe(one.length);
        for (const [i, s] of one.entries()) {
          expect(other[i]?.from).toBeCloseTo(s.from, 6);
          expect(other[i]?.to).toBeCloseTo(s.to, 6);
        }
      }),
      seeded,
    );
  });

  test('halving with a rate finds the same ends as the closed form, to 0.001°', () => {
    fc.assert(
      fc.property(round, round, within(0, 6), (f, m, limit) => {
        const closed = pairTest(pair(cut('H1', f, false), cut('H2', m, true), limit), 0);
        const a = spansOf(closed, range);
        const b = spansOf({ ...closed, turns: null }, range);
        const grazed =
          a.some((s) => s.to - s.from < 1e-3) || a.some((s, i) => (a[i + 1]?.from ?? Infinity) - s.to < 1e-3);
        fc.pre(!grazed);
        expect(b.length).toBe(a.length);
        for (const [i, s] of a.entries()) {
          expect(Math.abs((b[i]?.from ?? Number.NaN) - s.from)).toBeLessThan(0.001 * DEGREE);
          expect(Math.abs((b[i]?.to ?? Number.NaN) - s.to)).toBeLessThan(0.001 * DEGREE);
        }
      }),
      { ...seeded, numRuns: 80 },
    );
  });

  test('by hand: two holes of 10 on one circle of radius 50, 5 mm of metal: 2 asin(15/100) apart', () => {
    const p = { x: 0, y: 50 };
    const spans = spansOf(
      pairTest(pair(cut('H1', { spine: [p, p], r: 5 }, false), cut('H2', { spine: [p, p], r: 5 }, true), 5), 0),
      range,
    );
    const least = 2 * Math.asin(0.15);
    expect(
      spans
        .map((s) => [s.from, s.to])
        .flat()
        .map((a) => a.toFixed(9)),
    ).toEqual([-Math.PI, -least, least, Math.PI].map((a) => a.toFixed(9)));
  });
});

describe('the angle with the widest margin', () => {
  test('beats every one of 4,000 others, and by as much as it says', () => {
    fc.assert(
      fc.property(
        fc.array(round, { minLength: 1, maxLength: 4 }),
        fc.array(round, { minLength: 1, maxLength: 4 }),
        (fs, ms) => {
          const fixed = fs.map((f, i) => cut(`H${i}`, f, false));
          const moving = ms.map((m, i) => cut(`K${i}`, m, true));
          const tests = fixed.flatMap((f) => moving.map((m) => pairTest(pair(f, m, 3), 0)));
          const best = widest(tests, [range]);
          const least = (a: number) => Math.min(...fixed.flatMap((f) => moving.map((m) => webAt(f, m, a) - 3)));
          expect(best?.margin).toBeCloseTo(least(best?.angle ?? 0), 9);
          let found = -Infinity;
          for (let k = 0; k < 4000; k++) found = Math.max(found, least(-Math.PI + (2 * Math.PI * k) / 4000));
          expect(best?.margin ?? Number.NaN).toBeGreaterThan(found - 2e-4);
        },
      ),
      { ...seeded, numRuns: 10 },
    );
  });

  test('by hand: between two holes the middle', () => {
    const at = (degrees: number) => ({ x: 50 * Math.sin(degrees * DEGREE), y: 50 * Math.cos(degrees * DEGREE) });
    const fixed = [0, 50].map((d, i) => cut(`H${i}`, { spine: [at(d), at(d)], r: 5 }, false));
    const moving = cut('K', { spine: [at(0), at(0)], r: 5 }, true);
    const best = widest(
      fixed.map((f) => pairTest(pair(f, moving, 3), 0)),
      [{ from: 0, to: 50 * DEGREE }],
    );
    expect((best?.angle ?? 0) / DEGREE).toBeCloseTo(25, 4);
    expect(best?.margin).toBeCloseTo(100 * Math.sin(12.5 * DEGREE) - 13, 6);
  });
});

describe('the nearest turn', () => {
  const spans = [
    { from: 3.87 * DEGREE, to: 20 * DEGREE },
    { from: -12 * DEGREE, to: -5.2 * DEGREE },
  ];
  test('is in the roundest degrees that do', () => {
    expect((nearestTurn(0, spans, range) ?? 0) / DEGREE).toBeCloseTo(4, 9);
    expect((nearestTurn(-2 * DEGREE, spans, range) ?? 0) / DEGREE).toBeCloseTo(-4, 9);
    expect((nearestTurn(0, [{ from: 3.87 * DEGREE, to: 3.93 * DEGREE }], range) ?? 0) / DEGREE).toBeCloseTo(3.9, 9);
    expect(nearestTurn(0, [], range)).toBeNull();
  });
  test('goes the short way round', () => {
    expect((nearestTurn(170 * DEGREE, [{ from: -180 * DEGREE, to: -175 * DEGREE }], range) ?? 0) / DEGREE).toBeCloseTo(
      10,
      9,
    );
  });
});
