import { DEGREE, distance, dot, polar } from '@fayplate/core';
import { parseThread } from '@fayplate/handbook';
import { describe, expect, test } from 'vitest';
import { depthInside } from '../../src/outline/inside.js';
import { stockLength } from '../../src/treat/thread.js';
import { type Bench, bench, checksOf, fasten, plateOf, ring } from '../support/plate.js';

const motor = { spots: ring(4, 80, 0.4, { kind: 'hole', d: 11 }) };
const withDowels = (count: number, more: object = {}): Bench =>
  bench({ spots: ring(5, 60, 0, { kind: 'stud', thread: 'M8', d: 8, stands: 20 }) }, motor, {
    locate: new Map([['motor', { as: 'new dowels', count, diameter: 8 }]]),
    bore: { diameter: 40, side: 'through', depth: null },
    fasten: new Map([
      ['pump', fasten({ sunk: 'counterbored', head: 'nut' })],
      ['motor', fasten({ as: 'tapped', thread: 'M10', engagement: { times: 1 } })],
    ]),
    ...more,
  });

describe('new dowels', () => {
  test.each([1, 2, 3])(
    '%d find room of their own: clear of every cut, every fastener of their part, and inside the plate',
    (count) => {
      const plate = plateOf(withDowels(count));
      const set = plate.holes.filter((h) => h.as === 'dowel');
      expect(set.map((h) => [h.id, h.feature, h.diameter])).toEqual(
        Array.from({ length: count }, (_, i) => [`H${10 + i}`, null, 8]),
      );
      expect(plate.checks.filter((c) => !c.ok && set.some((h) => c.of.includes(h.id)))).toEqual([]);
      for (const dowel of set) {
        expect(depthInside(dowel, plate.outline.path)).toBeGreaterThan(8 * 1.5);
        for (const h of plate.holes)
          expect(
            h === dowel || distance(h, dowel) > 4 + 3 + Math.max(h.diameter, h.sink?.diameter ?? 0) / 2 - 1e-9,
          ).toBe(true);
      }
    },
  );
  test('two lie far apart, so that they hold the turn', () => {
    const [a, b] = plateOf(withDowels(2)).holes.filter((h) => h.as === 'dowel');
    expect(distance(a ?? { x: 0, y: 0 }, b ?? { x: 0, y: 0 })).toBeGreaterThan(100);
  });
  test('follow the clocking that is chosen, and do not narrow the choice', () => {
    const search = { clocking: { search: [-30 * DEGREE, 30 * DEGREE] as const } };
    const one = plateOf(withDowels(2, search));
    const without = plateOf(withDowels(2, { ...search, locate: new Map() }));
    expect(one.clockings).toEqual(without.clockings);
    expect(one.clocking).toBe(without.clocking);
    expect(checksOf(one, 'web between cuts').every((c) => c.ok)).toBe(true);
  });
  test.each([
    ['a round plate of stated diameter', { shape: 'round', margin: null, diameter: 150 }],
    ['an outline with a small margin', { shape: 'follow', margin: 2, corner: null }],
  ] as const)('keep their distance from the edge of %s', (_what, outline) => {
    const plate = plateOf(withDowels(2, { outline }));
    const edges = checksOf(plate, 'hole to edge').filter((c) =>
      plate.holes.some((h) => h.as === 'dowel' && c.of[0] === h.id),
    );
    expect(edges.map((c) => c.ok)).toEqual([true, true]);
  });
  test('lie a diameter and a half inside the rim of their part, where it is known', () => {
    // A regular polygon of 12 sides, each 75 from the middle; the studs of the other part reach far beyond it.
    const rim = Array.from({ length: 12 }, (_, i) => ({ at: polar(75 / Math.cos(15 * DEGREE), 30 * i * DEGREE) }));
    const plate = plateOf(
      bench(
        { spots: ring(5, 110, 0, { kind: 'stud', thread: 'M8', d: 8 }) },
        { spots: ring(4, 60, 0.4, { kind: 'hole', d: 11 }), face: { rim } },
        {
          locate: new Map([['motor', { as: 'new dowels', count: 2, diameter: 8 }]]),
          fasten: new Map([['motor', fasten({ as: 'tapped', thread: 'M10', engagement: { times: 1 } })]]),
        },
      ),
    );
    const set = plate.holes.filter((h) => h.as === 'dowel');
    expect(set).toHaveLength(2);
    for (const d of set)
      for (let i = 0; i < 12; i += 1)
        expect(dot(d, polar(1, (30 * i + 15) * DEGREE))).toBeLessThanOrEqual(75 - 1.5 * 8 + 1e-9);
  });
  test('lie as far out as an outline like a rim lets them', () => {
    const rim = Array.from({ length: 12 }, (_, i) => ({ at: polar(71 / Math.cos(15 * DEGREE), 30 * i * DEGREE) }));
    const plate = plateOf(
      bench(
        { spots: ring(8, 62, 0, { kind: 'stud', thread: 'M5', d: 5 }), face: { rim } },
        {
          spots: ring(4, 30, 0.4, { kind: 'hole', d: 5.5 }),
          face: { rim: rim.map(({ at }) => ({ at: { x: 2 * at.x, y: 2 * at.y } })) },
        },
        {
          locate: new Map([['motor', { as: 'new dowels', count: 2, diameter: 8 }]]),
          outline: { shape: 'like', face: 'pump', margin: 0 },
          fasten: new Map([['motor', fasten({ as: 'tapped', thread: 'M5', engagement: { times: 1 } })]]),
        },
      ),
    );
    const set = plate.holes.filter((h) => h.as === 'dowel');
    expect(checksOf(plate, 'hole to edge').filter((c) => !c.ok)).toEqual([]);
    // The straight sides of the cuts' hull lie 62 cos 22.5° + 2.75 out; a dowel of 8 keeps its radius within them, and
    // is tried every 2 mm.
    for (const d of set) expect(Math.hypot(d.x, d.y)).toBeGreaterThan(62 * Math.cos(22.5 * DEGREE) + 2.75 - 4 - 3);
    expect(set).toHaveLength(2);
  });
  test('where there is no room the checks say so', () => {
    const tight = plateOf(withDowels(2, { limits: { web: 30, edge: null } }));
    expect(checksOf(tight, 'web between cuts').some((c) => !c.ok && c.of.includes('H10'))).toBe(true);
  });
});

describe('bolts to buy', () => {
  test('by hand: flange 12, 1 d of M10 in a plate of 20: 22 to 32 under the head, 25 is stocked', () => {
    const b = withDowels(1);
    const job = { ...b.job, faces: b.job.faces.map((f) => (f.name === 'motor' ? { ...f, flange: 12 } : f)) };
    expect(plateOf({ ...b, job }).bolts).toEqual([
      { holes: ['H6', 'H7', 'H8', 'H9'], thread: 'M10', least: 22, most: 32, stock: 25 },
    ]);
    expect(plateOf(b).bolts).toEqual([]);
  });
  test('inch lengths step by eighths to an inch, by quarters to four, by halves to eight', () => {
    const unc = parseThread('3/8-16 UNC');
    if (unc === null) throw new Error('no thread');
    for (let sixteenths = 4; sixteenths <= 128; sixteenths += 1) {
      const step = sixteenths <= 16 ? 2 : sixteenths <= 64 ? 4 : 8;
      expect(stockLength(unc, (sixteenths * 25.4) / 16)).toBeCloseTo(
        (step * Math.ceil(sixteenths / step) * 25.4) / 16,
        9,
      );
    }
    expect(stockLength(unc, 8.01 * 25.4)).toBeNull();
  });
  test('metric lengths step by fives from 20 to 70 mm, by tens to 160, by twenties to 200', () => {
    const m10 = parseThread('M10');
    if (m10 === null) throw new Error('no thread');
    // ISO 888, from memory.
    for (let l = 16.5; l <= 200; l += 0.5) {
      const step = l <= 70 ? 5 : l <= 160 ? 10 : 20;
      expect(stockLength(m10, l)).toBe(step * Math.ceil(l / step));
    }
    expect([4, 5.5, 6.5, 9, 11, 13].map((l) => stockLength(m10, l))).toEqual([5, 6, 8, 10, 12, 16]);
  });
  test('in inches the lengths are those of inch screws', () => {
    const b = bench(
      { spots: {} },
      { spots: ring(3, 60, 0, { kind: 'hole', d: 10.5 }), face: { flange: 12.7 } },
      { fasten: new Map([['motor', fasten({ as: 'tapped', thread: '3/8-16 UNC', engagement: { times: 1 } })]]) },
    );
    // 12.7 + 9.525 = 22.225 is 7/8 in exactly.
    expect((plateOf(b).bolts[0]?.stock ?? 0) / 25.4).toBeCloseTo(7 / 8, 12);
  });
});
