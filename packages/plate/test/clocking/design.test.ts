import { DEGREE, polar } from '@fayplate/core';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { OutlineSpec, PlateSpec } from '@fayplate/job';
import { checkDraft } from '../../src/checks/all.js';
import { layDesk } from '../../src/desk.js';
import { drawDraft } from '../../src/draft.js';
import { type Bench, bench, fasten, plateOf, ring } from '../support/plate.js';
import { seeded, within } from '../support/seeds.js';

const outline: fc.Arbitrary<OutlineSpec> = fc.oneof(
  within(4, 14).map((margin) => ({ shape: 'follow', margin, corner: null }) as const),
  within(4, 14).map((margin) => ({ shape: 'round', margin, diameter: null }) as const),
  within(4, 14).map((margin) => ({ shape: 'rectangle', margin, corner: 5 }) as const),
);

/** Two made-up parts whose fasteners come near each other, in every treatment. */
const aBench: fc.Arbitrary<Bench> = fc
  .record({
    n: fc.integer({ min: 2, max: 5 }),
    m: fc.integer({ min: 2, max: 5 }),
    r: within(45, 70),
    q: within(45, 80),
    jitter: fc.array(within(-9, 9), { minLength: 20, maxLength: 20 }),
    sunk: fc.constantFrom('none' as const, 'counterbored' as const),
    blind: fc.boolean(),
    tapped: fc.boolean(),
    outline,
    thickness: within(16, 40),
    stands: within(15, 45),
  })
  .map(({ n, m, r, q, jitter, sunk, blind, tapped, outline, thickness, stands }) => {
    const shaken = (spots: ReturnType<typeof ring>, from: number) =>
      Object.fromEntries(
        Object.entries(spots).map(([id, s], i) => [
          id,
          { ...s, at: { x: s.at.x + (jitter[from + i] ?? 0), y: s.at.y + (jitter[from + 5 + i] ?? 0) } },
        ]),
      );
    const plate: Partial<PlateSpec> = {
      thickness,
      outline,
      bore: { diameter: 30, side: 'through', depth: null },
      fasten: new Map([
        ['pump', fasten({ head: 'nut', sunk })],
        [
          'motor',
          tapped
            ? fasten({ as: 'tapped', thread: 'M10', engagement: { times: 1 }, blind })
            : fasten({ head: 'cap screw', sunk }),
        ],
      ]),
    };
    return bench(
      { spots: shaken(ring(n, r, 1, { kind: 'stud', thread: 'M8', d: 8, stands }), 0) },
      {
        spots: shaken(ring(m, q, 0.3, tapped ? { kind: 'hole', d: 11 } : { kind: 'hole', thread: 'M10', d: 8.6 }), 10),
      },
      plate,
    );
  });

describe('angles at which the whole plate holds', () => {
  test('are those at which the checks themselves, drawn anew, do', () => {
    let looked = 0;
    fc.assert(
      fc.property(aBench, within(-180, 180), fc.constantFrom(1e-4, -1e-4), (b, degrees, nudge) => {
        const at = (clocking: number) => {
          const laid = layDesk(b.job, b.used, { stack: null, clocking });
          const drafted = laid.ok ? drawDraft(laid.desk) : laid;
          if (!drafted.ok) throw new Error(drafted.faults.join());
          return checkDraft(drafted.draft).findings;
        };
        const first = plateOf(b, { trials: 1 });
        const { spans } = first.turning;
        const never = new Set<string>();
        // What fails at every angle of a coarse look is not the angle's to cure; it is left out on both sides.
        const key = (c: { rule: string; of: readonly string[] }) => `${c.rule} ${c.of.join()}`;
        const looks = [-150, -90, -30, 30, 90, 150].map(
          (d) =>
            new Set(
              at(d * DEGREE)
                .filter((c) => !c.ok)
                .map(key),
            ),
        );
        for (const k of looks[0] ?? []) if (looks.every((l) => l.has(k))) never.add(k);
        const [span] = spans;
        for (const angle of [degrees * DEGREE, ...(span === undefined ? [] : [span.from + nudge, span.to + nudge])]) {
          if (angle < -Math.PI || angle > Math.PI) continue;
          if (spans.some((s) => Math.min(Math.abs(angle - s.from), Math.abs(angle - s.to)) < 5e-5)) continue;
          const inside = spans.some((s) => angle > s.from && angle < s.to);
          const fails = at(angle).filter((c) => !c.ok && !never.has(key(c)));
          looked += 1;
          const told = inside
            ? fails.map(key)
            : fails.length > 0 || never.size > 0
              ? []
              : [`nothing fails at ${angle / DEGREE}°`];
          expect(told).toEqual([]);
        }
      }),
      { ...seeded, numRuns: 12 },
    );
    expect(looked).toBeGreaterThan(12);
  });

  test('by hand: a stud that ends past the plate has to come into the window of the other part', () => {
    // A window of 30 at 60 from the centre lets a stud of M8 through while they are no more than 11 mm apart: 2
    // asin(11/120).
    const b = (clocking: PlateSpec['clocking']) =>
      bench(
        { spots: { P1: { kind: 'stud', thread: 'M8', d: 8, stands: 40, at: polar(60, Math.PI / 2) } } },
        {
          spots: {
            ...ring(6, 100, 0, { kind: 'hole', d: 11 }),
            window: { kind: 'bore', d: 30, at: polar(60, Math.PI / 2) },
          },
          face: { viewed: 'from behind' },
        },
        {
          clocking,
          fasten: new Map([
            ['pump', fasten({ head: 'nut', sunk: 'counterbored' })],
            ['motor', fasten({ as: 'tapped', thread: 'M10', engagement: { times: 1 } })],
          ]),
        },
      );
    const most = (2 * Math.asin(11 / 120)) / DEGREE;
    const found =
      plateOf(b({ search: [-40 * DEGREE, 40 * DEGREE] })).clockings?.map((s) => [s.from / DEGREE, s.to / DEGREE]) ?? [];
    expect(found).toEqual([[expect.closeTo(-most, 3), expect.closeTo(most, 3)]]);
    const [check] = plateOf(b({ at: 20 * DEGREE })).checks.filter((c) => c.rule === "stud's end under the other part");
    expect(
      check?.cures.filter((c) => c.clean && c.kind === 'turn').map((c) => (c.kind === 'turn' ? c.by / DEGREE : 0)),
    ).toEqual([expect.closeTo(-10, 9)]);
  });

  test('a search puts the plate at the angle with the widest margin, and says where it holds', () => {
    const spots = {
      A: { kind: 'stud' as const, thread: 'M8', d: 8, at: polar(60, Math.PI / 2) },
      B: { kind: 'stud' as const, thread: 'M8', d: 8, at: polar(60, Math.PI / 2 - 50 * DEGREE) },
    };
    const motor = { K: { kind: 'hole' as const, d: 11, at: polar(60, Math.PI / 2) } };
    const b = bench(
      { spots },
      { spots: motor, face: { viewed: 'from behind' } },
      {
        clocking: { search: [0, 50 * DEGREE] },
        fasten: new Map([
          ['pump', fasten({ sunk: 'counterbored', head: 'nut' })],
          ['motor', fasten({ as: 'tapped', thread: 'M10', engagement: { times: 1 } })],
        ]),
      },
    );
    const plate = plateOf(b);
    // M8 nuts take a counterbore of 20.5 (socket 19.25 and a millimetre round it, up to the next half), M10 counts at
    // its major diameter: 10.25 + 5 + 3 = 18.25 between centres on a radius of 60.
    const least = (2 * Math.asin(18.25 / 120)) / DEGREE;
    expect(plate.clocking / DEGREE).toBeCloseTo(25, 3);
    expect(plate.clockings?.map((s) => [s.from / DEGREE, s.to / DEGREE])).toEqual([
      [expect.closeTo(least, 6), expect.closeTo(50 - least, 6)],
    ]);
    expect(plate.turning.best?.margin).toBeCloseTo(120 * Math.sin(12.5 * DEGREE) - 18.25, 6);
    expect(plate.turning.plot[0]?.web).toBeCloseTo(-15.25, 6);
  });
});
