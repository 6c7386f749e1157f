import { speechFor } from '@fayplate/core';
import type { StackSpec } from '@fayplate/job';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type StackResult, solveStack, stackJson, stackReport } from '../../src/index.js';
import { limit, pump, stack } from './support.js';

const inch = 25.4;

/** A job in inches, solved by a separate program that enumerates every corner of the ±: lengths mm. */
const inches = stack(
  {
    shank: [(3 + 17 / 32) * inch, inch / 64],
    lip: [0.25 * inch, 0.005 * inch],
    well: [2.48 * inch, 0.01 * inch],
    washer: [inch / 16, 0.004 * inch],
    boot: [2, 0.1],
  },
  [
    limit('grip', { shank: 1, plate: -1, washer: -1, lip: -1 }, 1.75 * inch),
    limit('bottom', { well: 1, plate: 1, washer: 1, boot: 1, shank: -1 }, inch / 32, 0.15 * inch),
  ],
  { unknown: { name: 'plate', from: 0.5 * inch, to: 1.75 * inch, made: null } },
);

describe('windows', () => {
  test('agree with the corner enumeration of a separate program', () => {
    const r = solveStack(inches);
    expect(r.worst?.from).toBeCloseTo(24.760475, 9);
    expect(r.worst?.to).toBeCloseTo(26.071775, 9);
    // That program takes z of exactly 0.9973, 2.99998; here z is 3.
    expect(r.statistical?.from).toBeCloseTo(24.646427632892085, 4);
    expect(r.statistical?.to).toBeCloseTo(26.18582236710791, 4);
    expect(r.limits.map((l) => l.nominal - (l.name === 'grip' ? -1 : 1) * (r.total ?? 0))).toEqual([
      expect.closeTo(81.75625, 9),
      expect.closeTo(-23.11425, 9),
    ]);
    expect((r.limits[0]?.worst[1] ?? 0) - (r.limits[0]?.nominal ?? 0)).toBeCloseTo(0.625475, 9);
    expect((r.limits[1]?.statistical[1] ?? 0) - (r.limits[1]?.nominal ?? 0)).toBeCloseTo(0.7384276328920859, 4);
    expect(r.chosen).toBe(25.4);
    expect(r.ok).toBe(true);
  });

  test('worked by hand: the pump', () => {
    const r = solveStack(pump());
    // engagement: 61.2 − p − 0.8 − 6 − 0.4 ≥ 25 → p ≤ 29; tip gap: 44 + p + 0.8 − 61.2 ∓ 0.5 → 17.9 ≤ p ≤ 18.9
    expect(r.worst?.from).toBeCloseTo(17.9, 9);
    expect(r.worst?.to).toBeCloseTo(18.9, 9);
    expect(r.chosen).toBe(18.4);
    // Of the three links of the tip gap, reach and floor (± 0.2) each cost 0.4 of the window, gasket 0.2, mouth
    // nothing.
    expect(r.costs.map((c) => c.link)).toEqual(['reach', 'floor', 'gasket', 'mouth']);
    expect(r.costs.map((c) => c.worst)).toEqual([
      expect.closeTo(0.4, 9),
      expect.closeTo(0.4, 9),
      expect.closeTo(0.2, 9),
      expect.closeTo(0, 9),
    ]);
  });

  test('by hand: links are told by what they cost at the worst, though by chance it may be less', () => {
    // Beside c (± 1) a (± 0.2) hardly counts by chance: 1.5 (√1.04 − 1); b (± 0.15) stands alone: 1.5 × 0.15.
    const r = solveStack(
      stack({ b: [20, 0.15], a: [5, 0.2], c: [5, 1] }, [
        limit('low', { plate: 1, a: -1, c: -1 }, 0),
        limit('high', { b: 1, plate: -1 }, 0),
      ]),
    );
    expect(r.costs.map((c) => [c.link, c.worst, c.statistical])).toEqual([
      ['c', expect.closeTo(1, 9), expect.closeTo(1.5 * (Math.sqrt(1.04) - 0.2), 9)],
      ['a', expect.closeTo(0.2, 9), expect.closeTo(1.5 * (Math.sqrt(1.04) - 1), 9)],
      ['b', expect.closeTo(0.15, 9), expect.closeTo(1.5 * 0.15, 9)],
    ]);
  });

  const length = fc.double({ min: 1, max: 100, noNaN: true });
  const spread = fc.double({ min: 0, max: 1, noNaN: true });
  const sign = fc.constantFrom(-2, -1, 1, 2);
  const any: fc.Arbitrary<StackSpec> = fc
    .tuple(
      fc.array(fc.tuple(length, spread), { minLength: 2, maxLength: 4 }),
      fc.array(
        fc.tuple(
          fc.array(sign, { minLength: 4, maxLength: 4 }),
          fc.constantFrom(-1, 1),
          length,
          fc.double({ min: 0, max: 8, noNaN: true }),
        ),
        { minLength: 1, maxLength: 3 },
      ),
      fc.option(spread, { nil: null }),
    )
    .map(([links, limits, made]) =>
      stack(
        Object.fromEntries(links.map((l, i) => [`l${i}`, l])),
        limits.map(([signs, u, least, span], k) =>
          limit(
            `limit ${k}`,
            { ...Object.fromEntries(links.map((_, i) => [`l${i}`, signs[i] ?? 1])), plate: u },
            least - 50,
            least - 50 + span,
          ),
        ),
        { unknown: { name: 'plate', from: 0, to: 1000, made } },
      ),
    );

  test('inside the window every corner of every ± meets every limit; just outside some corner does not', () => {
    fc.assert(
      fc.property(any, (spec) => {
        const r = solveStack(spec);
        const fails = (unknown: number): boolean =>
          spec.limits.some((l) => {
            const names = [...l.sum.keys()];
            for (let corner = 0; corner < 2 ** names.length; corner += 1) {
              const sum = names.reduce((total, name, i) => {
                const link = spec.links.find((x) => x.name === name);
                const end = (corner >> i) & 1 ? 1 : -1;
                const value = (link?.value ?? unknown) + end * (link?.plusMinus ?? spec.unknown.made ?? 0);
                return total + (l.sum.get(name) ?? 0) * value;
              }, 0);
              if ((l.least !== null && sum < l.least - 1e-7) || (l.most !== null && sum > l.most + 1e-7)) return true;
            }
            return false;
          });
        const { from, to } = r.worst ?? { from: 0, to: 0 };
        const within = r.worst === null ? [] : [0, 0.5, 1].map((share) => from + share * (to - from));
        const without =
          r.worst === null ? [0, 1, 10, 50, 200, 1000] : [from - 1e-4, to + 1e-4].filter((u) => u > 0 && u < 1000);
        expect(within.filter(fails)).toEqual([]);
        expect(without.filter((u) => !fails(u))).toEqual([]);
      }),
      { seed: 20_261, numRuns: 300 },
    );
  });

  test('the unit and the names change nothing', () => {
    const k = 25.4;
    const scaled = stack(
      { reach: [61.2 * k, 0.2 * k], mouth: [6 * k, 0.1 * k], floor: [44 * k, 0.2 * k], gasket: [0.8 * k, 0.1 * k] },
      pump().limits.map((l) => ({
        ...l,
        least: l.least === null ? null : l.least * k,
        most: l.most === null ? null : l.most * k,
      })),
      { unknown: { name: 'plate', from: 12 * k, to: 30 * k, made: null } },
    );
    expect(solveStack(scaled).worst?.from).toBeCloseTo((solveStack(pump()).worst?.from ?? 0) * k, 7);
    expect(solveStack(scaled).statistical?.to).toBeCloseTo((solveStack(pump()).statistical?.to ?? 0) * k, 7);
  });

  test('the making of the plate itself narrows the window', () => {
    const r = solveStack(pump({ unknown: { name: 'plate', from: 12, to: 30, made: 0.05 } }));
    expect(r.worst?.from).toBeCloseTo(17.95, 9);
    expect(r.worst?.to).toBeCloseTo(18.85, 9);
    expect(r.costs.find((c) => c.link === 'plate')?.worst).toBeCloseTo(0.1, 9);
  });

  // Chance of a normal law outside ± 3σ on one side: 0.00135; a separate program counted 0.00137 at both edges.
  test('at the edge of the statistical window about 1 build in 740 fails', () => {
    const r = solveStack(inches);
    const z =
      ((r.statistical?.from ?? 0) - 23.11425 - 25.4 / 32) /
      Math.hypot(...[25.4 / 64, 0.254, 0.1016, 0.1].map((v) => v / 2));
    expect(z).toBeCloseTo(3, 9);
  });
});

describe('conflicts', () => {
  test('the pair that leaves no room is named, and how far apart they are', () => {
    const r = solveStack(
      pump({
        limits: [
          limit('engagement', { reach: 1, plate: -1, gasket: -1, mouth: -1 }, 40),
          limit('tip gap', { floor: 1, plate: 1, gasket: 1, reach: -1 }, 1, 3),
        ],
      }),
    );
    // engagement: p ≤ 14.0; tip gap: p ≥ 17.9
    expect(r.worst).toBeNull();
    expect(r.ok).toBe(false);
    expect(r.chosen).toBeNull();
    expect(r.conflict?.between.map((b) => b.limit)).toEqual(['tip gap', 'engagement']);
    expect(r.conflict?.by).toBeCloseTo(3.9, 9);
    expect(r.conflict?.evenWhenExact).toBe(true);
  });

  test('a limit narrower than the ± of its own links', () => {
    const r = solveStack(stack({ a: [10, 0.5], b: [5, 0.5] }, [limit('gap', { a: 1, b: -1, plate: 1 }, 7, 8.6)]));
    expect(r.conflict?.between.map((b) => b.limit)).toEqual(['gap', 'gap']);
    expect(r.conflict?.by).toBeCloseTo(0.4, 9);
    expect(r.conflict?.evenWhenExact).toBe(false);
  });

  test('by chance there is room where the worst leaves none: a choice is made, and it is not called sound', () => {
    const links = Object.fromEntries(Array.from({ length: 9 }, (_, i) => [`l${i}`, [10, 0.1] as const]));
    const r = solveStack(
      stack(links, [limit('gap', { ...Object.fromEntries(Object.keys(links).map((n) => [n, 1])), plate: -1 }, 1, 2.2)]),
    );
    // worst ± 0.9 in a width of 1.2; by chance ± 3 √9 × 0.05 = ± 0.45
    expect(r.worst).toBeNull();
    expect(r.statistical?.from).toBeCloseTo(88.25, 9);
    expect(r.chosen).toBeCloseTo(88.4, 9);
    expect(r.ok).toBe(false);
    expect(stackReport(r, speechFor('mm'))[0]).toMatchObject({ ok: false });
  });

  test('the range looked in is one side of a conflict', () => {
    const r = solveStack(pump({ unknown: { name: 'plate', from: 12, to: 15, made: null } }));
    expect(r.conflict?.between.map((b) => b.limit)).toEqual(['tip gap', null]);
    expect(r.conflict?.by).toBeCloseTo(2.9, 9);
    // At 15, where it is missed least, the tip gap is −1.9 to −0.9: under its most, and under its least; the engagement
    // has 14 to spare.
    expect([r.at, ...r.limits.map((l) => [l.name, l.ok])]).toEqual([15, ['engagement', true], ['tip gap', false]]);
  });

  test('a limit that the plate has no say in', () => {
    const r = solveStack(stack({ a: [10, 0.5] }, [limit('fixed', { a: 1 }, 10), limit('free', { plate: 1 }, 1)]));
    expect(r.conflict?.between[0]).toMatchObject({ limit: 'fixed', asks: null });
    expect(r.conflict?.by).toBeCloseTo(0.5, 9);
    expect(r.ok).toBe(false);
    const most = solveStack(
      stack({ a: [10, 0.5] }, [limit('fixed', { a: 1 }, null, 10), limit('free', { plate: 1 }, 1)]),
    );
    expect(most.conflict).toMatchObject({
      between: [{ limit: 'fixed', end: 'most' }, { limit: 'fixed' }],
      by: expect.closeTo(0.5, 9),
    });
  });

  test('a sum that names nothing is a fault of the caller', () => {
    expect(() => solveStack(stack({ a: [1, 0] }, [limit('x', { b: 1 }, 0)]))).toThrow(RangeError);
  });
});

describe('words and JSON', () => {
  test('verdict first; the chosen thickness is said', () => {
    const [first] = stackReport(solveStack(pump()), speechFor('mm'));
    expect(first).toEqual({
      kind: 'verdict',
      ok: true,
      text: 'Make the plate 18.40 mm (17.90 mm to 18.90 mm will do): every limit holds even in the worst case.',
    });
  });
  test('and what it is bought as: 20 faced, or 18 as it is; in inches 3/4 faced', () => {
    const words = (unit: 'mm' | 'in'): string => JSON.stringify(stackReport(solveStack(pump()), speechFor(unit)));
    expect(words('mm')).toContain('Stock: 20 mm faced to 18.40 mm; or 18 mm as bought');
    expect(words('in')).toContain('Stock: 3/4 in faced to 0.724 in; or 18 mm as bought');
    expect(words('in')).not.toContain('0.7244');
    expect(words('in')).toContain('Measure reach and floor better: their ± cost the window most.');
  });
  const said = (r: StackResult): string => JSON.stringify(stackReport(r, speechFor('mm')));
  test('shims are counted, and lie with the plate in what the limits are told at', () => {
    const r = solveStack(
      stack({ a: [40, 0.1] }, [limit('gap', { plate: 1, a: -1 }, 0.9, 1.3)], {
        onHand: [39.5, 30],
        shims: { from: [0.8], atMost: 2 },
      }),
    );
    expect(said(r)).toContain('Make the plate 39.50 mm with shims 2 × 0.800 mm: every limit holds');
    expect(said(r)).toContain('Limits, mm, with plate and its shims 41.10');
    expect(r.at).toBeCloseTo(41.1, 9);
  });
  test('where nothing on hand fits, what would', () => {
    const r = solveStack(stack({ a: [40, 0.1] }, [limit('gap', { plate: 1, a: -1 }, 0.9, 1.3)], { onHand: [30] }));
    expect(said(r)).toContain(
      'Nothing on hand fits between 41.00 mm and 41.20 mm, alone, ' +
        'two together or with shims; one milled to 41.10 mm would.',
    );
    expect(
      solveStack(stack({ a: [40, 0.1] }, [limit('gap', { plate: 1, a: -1 }, 0.9, 1.3)], { onHand: [41.1] })).ok,
    ).toBe(true);
  });
  test('one limit alone, and a sentence that begins with its name', () => {
    const r = solveStack(stack({ a: [10, 0.5] }, [limit('fixed', { a: 1 }, 10), limit('free', { plate: 1 }, 1)]));
    expect(said(r)).toContain('fixed alone leaves no room');
    expect(said(r)).toContain('"Fixed (its least) is missed by 0.500 mm whatever plate is.');
  });
  test('JSON carries the agreed fields', () => {
    const json = stackJson(solveStack(inches)) as Record<string, unknown>;
    expect(json).toMatchObject({
      unknown: 'plate',
      worst: { from: expect.closeTo(24.760475, 6) },
      statistical: { coverage: 0.9973 },
      chosen: 25.4,
      shims: [],
    });
    expect(JSON.parse(JSON.stringify(json))).toEqual(json);
  });
});
