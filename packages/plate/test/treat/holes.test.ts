import { DEGREE, polar } from '@fayplate/core';
import { describe, expect, test } from 'vitest';
import type { PlateHole } from '../../src/index.js';
import { type Spot, bench, fasten, plateOf, ring } from '../support/plate.js';

const nothing = { spots: { Q: { kind: 'edge' as const, at: { x: 0, y: 0 } } } };
const one = (
  spot: Omit<Spot, 'at'>,
  how: Parameters<typeof fasten>[0],
  plate: Parameters<typeof bench>[2] = {},
  side: 'pump' | 'motor' = 'pump',
): PlateHole => {
  const part = { spots: { P1: { at: { x: 30, y: 0 }, ...spot } } };
  const b =
    side === 'pump'
      ? bench(part, nothing, { fasten: new Map([['pump', fasten(how)]]), ...plate })
      : bench(nothing, part, { fasten: new Map([['motor', fasten(how)]]), ...plate });
  const [hole] = plateOf(b).holes;
  if (hole === undefined) throw new Error('no hole');
  return hole;
};
const stud = { kind: 'stud' as const, thread: 'M8', d: 7.9 };

describe('clearance', () => {
  // ISO 273 fine, medium, coarse for M8; ASME B18.2.8 close, normal, loose for 3/8 (both as the handbook cites them).
  test.each([
    ['close', 8.4],
    ['normal', 9],
    ['loose', 10],
  ] as const)('M8 %s is %d mm', (fit, size) => {
    const hole = one(stud, { fit });
    expect([hole.diameter, hole.drill, hole.as]).toEqual([size, `${size} mm`, 'clearance']);
    expect(hole.limits?.[0]).toBe(size);
  });
  test.each([
    ['close', 25 / 64, '25/64'],
    ['normal', 13 / 32, '13/32'],
    ['loose', 27 / 64, '27/64'],
  ] as const)('3/8-16 UNC %s is %s in', (fit, inches, drill) => {
    const hole = one({ kind: 'stud', thread: '3/8-16 UNC', d: 9.45 }, { fit });
    expect(hole.diameter).toBeCloseTo(inches * 25.4, 9);
    expect(hole.drill).toBe(drill);
  });
  test('the largest fastener is the greater of its class and what was measured', () => {
    // 6g for M8: 8 − 0.028 (ISO 965-1).
    expect(one(stud, {}).fastener).toBeCloseTo(7.972, 6);
    expect(one({ ...stud, d: 8.03 }, {}).fastener).toBeCloseTo(8.03, 9);
  });
  test('a plain pin gets the allowance of the next larger thread', () => {
    // 7.2 mm: next coarse thread M8 gets 1 mm: 8.2.
    expect(one({ kind: 'stud', d: 7.2 }, {}).diameter).toBeCloseTo(8.2, 9);
  });
  test('a plain hole of the part with no thread named is copied', () => {
    expect(one({ kind: 'hole', d: 13.1 }, {}).diameter).toBe(13.1);
  });
});

describe('sunk heads', () => {
  test('a counterbore for an M8 nut has room for its socket and lies deep enough', () => {
    const hole = one(stud, { sunk: 'counterbored', head: 'nut' });
    // ISO 4032: 13 across flats, 6.8 high; socket 1.25 × 13 + 3 = 19.25 by the handbook's line; 1 mm round it, up to
    // the next 0.5.
    expect(hole.sink).toEqual({ kind: 'counterbored', diameter: 20.5, depth: 9, side: 'B' });
    // Depth: nut 6.8 + one pitch 1.25 + 0.5 below the surface = 8.55, up to the next 0.5.
    expect(hole.fastening?.head?.proud).toBeCloseTo(6.8 - 9, 9);
  });
  test('a short stud sinks its nut deeper', () => {
    // Needs 6.8 + 1.25 above the seat; stands 17: the seat lies at 8.95, that is 11.05 below the 20 mm plate: 11.5.
    expect(one({ ...stud, stands: 17 }, { sunk: 'counterbored', head: 'nut' }).sink?.depth).toBe(11.5);
  });
  test('a cap screw takes the counterbore of the tables', () => {
    const hole = one({ kind: 'hole', thread: 'M8', d: 6.8 }, { sunk: 'counterbored', head: 'cap screw' });
    // ISO 4762 head 13 × 8, counterbore 15 (DIN 974-1), half a millimetre below: 8.5.
    expect(hole.sink).toEqual({ kind: 'counterbored', diameter: 15, depth: 8.5, side: 'B' });
  });
  test('a spotface cleans the surface up', () => {
    expect(one(stud, { sunk: 'spotfaced', head: 'nut' }).sink).toEqual({
      kind: 'spotfaced',
      diameter: 20.5,
      depth: 1,
      side: 'B',
    });
  });
  test('a countersink is as wide as the head and as deep as its cone', () => {
    const hole = one({ kind: 'hole', thread: 'M8', d: 6.8 }, { sunk: 'countersunk', head: 'countersunk screw' });
    // ISO 10642 M8: 17.92 sharp, 90°: (17.92 − 9) / 2 deep in a hole of 9.
    expect(hole.sink).toMatchObject({ kind: 'countersunk', diameter: 17.92, side: 'B' });
    expect(hole.sink?.depth).toBeCloseTo(4.46, 9);
  });
  test('an inch countersunk screw has 82°', () => {
    const hole = one(
      { kind: 'hole', thread: '3/8-16 UNC', d: 7.94 },
      { sunk: 'countersunk', head: 'countersunk screw' },
    );
    // ASME B18.3, 3/8: 0.781 sharp; the cone runs down to the normal clearance hole, 13/32 (ASME B18.2.8).
    expect(hole.sink?.diameter).toBeCloseTo(0.781 * 25.4, 6);
    expect(hole.sink?.depth).toBeCloseTo(((0.781 - 13 / 32) / 2 / Math.tan(41 * DEGREE)) * 25.4, 6);
  });
  test('on the second face everything is on the other side', () => {
    expect(
      one({ kind: 'hole', thread: 'M8', d: 6.8 }, { sunk: 'counterbored', head: 'cap screw' }, {}, 'motor').sink?.side,
    ).toBe('A');
  });
  test('a washer makes the counterbore wider and deeper', () => {
    const hole = one(stud, { sunk: 'counterbored', head: 'nut', washer: true });
    expect(hole.sink?.depth).toBeGreaterThan(9);
    expect(hole.fastening?.head?.height).toBeCloseTo(6.8 + 1.6, 9); // ISO 7089 M8: 1.6 thick
  });
});

describe('tapped', () => {
  const plain = { kind: 'hole' as const, d: 11 };
  test('through: the tap drill of the tables, full thread all through', () => {
    const hole = one(plain, { as: 'tapped', thread: 'M10' }, {}, 'motor');
    expect(hole).toMatchObject({
      as: 'tapped',
      diameter: 8.5,
      depth: null,
      from: 'B',
      drill: '8.5 mm',
      thread: { name: 'M10', major: 10, pitch: 1.5, depth: null },
    });
  });
  test('blind: engagement, a pitch to spare, and three for the lead of the tap', () => {
    const hole = one(plain, { as: 'tapped', thread: 'M10', engagement: { times: 1.2 }, blind: true }, {}, 'motor');
    // 1.2 × 10 + 1.5 = 13.5 of thread; + 4.5 = 18 drilled.
    expect([hole.thread?.depth, hole.depth, hole.from]).toEqual([13.5, 18, 'B']);
  });
  test("with the part's flange known the thread is as deep as the stocked bolt wants", () => {
    const b = (flange: number, thickness: number) =>
      bench(
        nothing,
        { spots: { P1: { ...plain, at: { x: 30, y: 0 } } }, face: { flange } },
        {
          thickness,
          fasten: new Map([['motor', fasten({ as: 'tapped', thread: 'M10', engagement: { times: 1 }, blind: true })]]),
        },
      );
    // 14 + 10 = 24: M10 x 25 is stocked and enters 11; 11 + 1.5 of thread, 4.5 of lead.
    const [hole] = plateOf(b(14, 30)).holes;
    expect([hole?.thread?.depth, hole?.depth]).toEqual([12.5, 17]);
    expect(plateOf(b(14, 30)).bolts).toEqual([{ holes: ['H1'], thread: 'M10', least: 24, most: 25, stock: 25 }]);
    // 11 + 10 = 21: 25 would enter 14, for which 20 mm of plate has no room.
    expect(plateOf(b(11, 20)).holes[0]?.thread?.depth).toBe(11.5);
    expect(plateOf(b(11, 20)).bolts).toEqual([{ holes: ['H1'], thread: 'M10', least: 21, most: 21, stock: null }]);
  });
  test('engagement comes from the material where the job does not say', () => {
    // Aluminium 2 d, steel 1 d (design rules as the handbook cites them).
    const depth = (material: string) =>
      one(plain, { as: 'tapped', thread: 'M10', blind: true }, { material, thickness: 40 }, 'motor').thread?.depth;
    expect([depth('aluminium'), depth('steel')]).toEqual([21.5, 11.5]);
  });
  test('a set stud is blind where there is room', () => {
    expect(
      one(plain, { as: 'set stud', thread: 'M8', engagement: { times: 1 } }, { thickness: 30 }, 'motor'),
    ).toMatchObject({ as: 'set stud', diameter: 6.8, from: 'B', thread: { depth: 9.25 } });
  });
  // 13 deep (8 + 1.25 + 3 × 1.25) and the point of a drill of 6.8, 2.04: with a millimetre left under it from 16.04 on.
  test.each([
    [16, null],
    [16.1, 13],
  ])('a set stud in %d mm', (thickness, depth) => {
    expect(one(plain, { as: 'set stud', thread: 'M8', engagement: { times: 1 } }, { thickness }, 'motor').depth).toBe(
      depth,
    );
  });
  test("a part's stud cannot be tapped for", () => {
    const designed = () => one(stud, { as: 'tapped', thread: 'M8' });
    expect(designed).toThrow(/pump\.P1 is a stud of the part/);
  });
});

describe('what gets no hole, and exceptions', () => {
  test('vacant places and those left out; numbers follow the order of the job', () => {
    const spots = { ...ring(4, 50, 0, stud), V: { ...stud, at: { x: 0, y: 0 }, vacant: true } };
    const plate = plateOf(
      bench({ spots }, nothing, {
        fasten: new Map([['pump', fasten({ except: new Map([['P2', 'none']]) })]]),
        // Round the other three alone the plate would end short of it.
        outline: { shape: 'round', margin: 12, diameter: null },
      }),
    );
    expect(plate.holes.map((h) => [h.id, h.feature])).toEqual([
      ['H1', 'pump.P1'],
      ['H2', 'pump.P3'],
      ['H3', 'pump.P4'],
    ]);
    // An empty place has nothing that could stand in the way; a stud has.
    expect(plate.unknowns.filter((u) => u.includes('gets no hole'))).toEqual([
      'pump.P2 gets no hole, and the stud stands in the way of ' +
        'the plate: write `vacant: true` on P2 where it comes out.',
    ]);
  });
  test('one hole treated differently', () => {
    const spots = ring(3, 50, 0, { kind: 'hole', thread: 'M8', d: 9 });
    const plate = plateOf(
      bench({ spots }, nothing, { fasten: new Map([['pump', fasten({ except: new Map([['P2', 'tapped']]) })]]) }),
    );
    expect(plate.holes.map((h) => h.as)).toEqual(['clearance', 'tapped', 'clearance']);
  });
});

describe('dowels', () => {
  const dowels = {
    D1: { kind: 'dowel' as const, d: 8.01, at: polar(60, 20 * DEGREE) },
    D2: { kind: 'dowel' as const, d: 8.01, at: polar(60, 200 * DEGREE) },
  };
  const plate = (second: 'slot' | 'round') =>
    plateOf(
      bench({ spots: dowels }, nothing, {
        locate: new Map([['pump', { as: 'own dowels', features: ['D1', 'D2'], second }]]),
      }),
    );
  test('own dowels are reamed H7, the second in a slot that runs toward the first', () => {
    const [first, second] = plate('slot').holes;
    // ISO 286: H7 for 6 to 10 mm is 0 to + 15 µm.
    expect(first).toMatchObject({ as: 'dowel', diameter: 8 });
    expect(first?.limits?.map((l) => l.toFixed(3))).toEqual(['8.000', '8.015']);
    expect(second?.as).toBe('slot');
    // The line between them runs at 20°, either way along it.
    expect(Math.abs(Math.sin((second?.slot?.angle ?? 0) - 20 * DEGREE))).toBeLessThan(1e-12);
    expect(second?.slot?.length).toBeGreaterThanOrEqual(1);
    expect(plate('round').holes.map((h) => h.as)).toEqual(['dowel', 'dowel']);
  });
  test('a dowel that locates nothing is cleared, so that it cannot fight', () => {
    const cleared = plateOf(bench({ spots: dowels }, nothing)).holes;
    expect(cleared.map((h) => h.as)).toEqual(['clearance', 'clearance']);
    expect(cleared[0]?.diameter).toBeGreaterThan(8.9);
  });
});

describe('jacking and lifting holes', () => {
  test('lie on their circle at their clock positions as drawn, tapped through', () => {
    const plate = plateOf(
      bench({ spots: ring(3, 50, 0, stud) }, nothing, {
        extras: [
          { what: 'jacking', thread: 'M8', circle: 120, clocks: [Math.PI / 2, 0] },
          { what: 'lifting', thread: 'M10', circle: 90, clocks: [Math.PI] },
        ],
      }),
    );
    const extra = plate.holes.filter((h) => h.feature === null);
    expect(
      extra.map((h) => [h.id, h.as, h.thread?.name, h.diameter, Number(h.x.toFixed(6)), Number(h.y.toFixed(6))]),
    ).toEqual([
      ['H4', 'jacking', 'M8', 6.8, 0, 60],
      ['H5', 'jacking', 'M8', 6.8, 60, 0],
      ['H6', 'lifting', 'M10', 8.5, -45, 0],
    ]);
  });
});
