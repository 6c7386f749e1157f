import { MM_PER_INCH } from '@fayplate/core';
import { describe, expect, test } from 'vitest';
import { drillDepth } from '../../src/operations/operation.js';
import { planCuts, speedsFor } from '../../src/operations/plan.js';
import { shopOf } from '../../src/operations/shop.js';
import type { Cut } from '../../src/operations/operation.js';
import type { PlateHole } from '@fayplate/plate';
import { hole, job, plate, simple, withMachine } from '../fixture.js';

const cutsOf = (h: PlateHole, ofJob = job) =>
  planCuts(simple([h]), ofJob, shopOf(ofJob.machine, ofJob.units)).flatMap((g) => g.cuts);
const drilling = (diameter: number): Cut => ({
  hole: 'H1',
  at: { x: 0, y: 0 },
  op: 'drill',
  tool: 'drill',
  toolDiameter: diameter,
  depth: 10,
  side: 'B',
  pitch: null,
  note: null,
});

describe('depth with the drill’s point', () => {
  // Common practice, and geometry: a 118° point is 0.3 of the diameter long.
  test.each([5, 10, 20])('⌀ %i mm', (d) => {
    expect(drillDepth(d, 12, 30) - 12).toBeCloseTo(0.3 * d, 1);
    expect(drillDepth(d, null, 30)).toBeGreaterThan(30 + 0.3 * d);
  });
});

describe('cuts of a hole, in shop order', () => {
  const ops = (h: PlateHole): readonly string[] => cutsOf(h).map((c) => c.op);

  test.each<[string, PlateHole, readonly string[]]>([
    ['a clearance hole', hole('H1', 0, 0), ['spot', 'drill', 'chamfer']],
    ['a large one', hole('H1', 0, 0, { diameter: 18 }), ['spot', 'pilot', 'drill', 'chamfer']],
    ['larger than any drill', hole('H1', 0, 0, { diameter: 40 }), ['spot', 'pilot', 'drill', 'bore', 'chamfer']],
    [
      'counterbored',
      hole('H1', 0, 0, { sink: { kind: 'counterbored', diameter: 15, depth: 6, side: 'B' } }),
      ['spot', 'drill', 'counterbore'],
    ],
    [
      'countersunk',
      hole('H1', 0, 0, { sink: { kind: 'countersunk', diameter: 18, depth: 4.5, side: 'B' } }),
      ['spot', 'drill', 'countersink'],
    ],
    [
      'tapped',
      hole('H1', 0, 0, { as: 'tapped', diameter: 8.5, thread: { name: 'M10', major: 10, pitch: 1.5, depth: null } }),
      ['spot', 'drill', 'chamfer', 'tap'],
    ],
    ['a dowel', hole('H1', 0, 0, { as: 'dowel', diameter: 6 }), ['spot', 'drill', 'ream', 'chamfer']],
    [
      'a long slot',
      hole('H1', 0, 0, { as: 'slot', diameter: 6, slot: { length: 8, angle: 0 } }),
      ['spot', 'spot', 'drill', 'drill', 'mill', 'mill', 'mill'],
    ],
    // Common practice: a drill that overlaps the hole beside it runs off into it.
    [
      'a short slot, whose ends would run into each other',
      hole('H1', 0, 0, { as: 'slot', diameter: 6, slot: { length: 3, angle: 0 } }),
      ['spot', 'drill', 'mill', 'mill', 'mill'],
    ],
  ])('%s', (_, h, wanted) => {
    expect(ops(h)).toEqual(wanted);
  });

  test('by hand: a slot is drilled at both its ends, whichever way it runs', () => {
    const slot = hole('H1', 10, 20, { as: 'slot', diameter: 6, slot: { length: 8, angle: Math.PI / 6 } });
    const ends = cutsOf(slot)
      .filter((c) => c.op === 'drill')
      .map((c) => c.at);
    expect(ends).toEqual(
      [-1, 1].map((end) => ({ x: expect.closeTo(10 + end * 2 * Math.sqrt(3), 9), y: expect.closeTo(20 + end * 2, 9) })),
    );
  });

  test('a drill that is a pilot here and full size there is taken up once', () => {
    // Three tenths of 18 are 5.4.
    const groups = planCuts(
      simple([hole('H1', 0, 0, { diameter: 18 }), hole('H2', 40, 0, { diameter: 5.4, drill: '5.4 mm' })]),
      job,
      shopOf(null, 'mm'),
    );
    expect(groups.filter((g) => g.tool === 'drill 5.4 mm').map((g) => g.cuts.map((c) => [c.hole, c.op]))).toEqual([
      [
        ['H1', 'pilot'],
        ['H2', 'drill'],
      ],
    ]);
  });

  test('a shop that lists no drills has those sold in its unit', () => {
    // 5.8 mm is 0.22835 in: number 1 is 0.2280.
    expect(['mm', 'in'].map((unit) => shopOf(null, unit === 'in' ? 'in' : 'mm').drill(5.8, 'at most').name)).toEqual([
      '5.8 mm',
      '#1',
    ]);
  });

  test('a dowel hole is drilled under size, however the shop’s drills come', () => {
    const onHand = withMachine({
      drills: [
        { name: '5.5 mm', diameter: 5.5 },
        { name: '6 mm', diameter: 6 },
      ],
    });
    for (const ofJob of [job, onHand]) {
      const drill = cutsOf(hole('H1', 0, 0, { as: 'dowel', diameter: 6 }), ofJob).find((c) => c.op === 'drill')!;
      expect(drill.toolDiameter).toBeLessThanOrEqual(5.8);
    }
  });

  test('a reamer’s lead comes through the far face', () => {
    expect(
      cutsOf(hole('H1', 0, 0, { as: 'dowel', diameter: 6 })).find((c) => c.op === 'ream')!.depth,
    ).toBeGreaterThanOrEqual(22);
  });

  test('new dowels are reamed at assembly, and the table says so', () => {
    const spec = { as: 'new dowels', count: 2, diameter: 6 } as const;
    const reamed = {
      ...job,
      plate: { locate: new Map([['motor', spec]]) } as unknown as NonNullable<typeof job.plate>,
    };
    expect(cutsOf(hole('H1', 0, 0, { as: 'dowel', diameter: 6 }), reamed).find((c) => c.op === 'ream')!.note).toMatch(
      /at assembly/,
    );
  });

  test('a tapped blind hole is drilled deeper than it is tapped, and never through', () => {
    const cuts = cutsOf(
      hole('H1', 0, 0, {
        as: 'tapped',
        diameter: 8.5,
        depth: 14,
        thread: { name: 'M10', major: 10, pitch: 1.5, depth: 10 },
      }),
    );
    const depth = (op: string): number => cuts.find((c) => c.op === op)!.depth;
    // Ten millimetres of full thread, and the chamfer of a bottoming tap: 1 1/2 threads (a machinists' handbook, 26th
    // edition, read as quoted).
    expect(depth('tap')).toBeCloseTo(10 + 1.5 * 1.5, 9);
    expect(depth('tap')).toBeLessThan(14);
    expect(depth('drill')).toBeGreaterThan(14);
    expect(depth('drill')).toBeLessThan(20);
  });

  test('through holes are all drilled from the side where most is sunk; what is sunk on the other side is sunk there', () => {
    const sunk = (id: string, side: 'A' | 'B') =>
      hole(id, 20 * Number(id.slice(1)), 0, { from: 'A', sink: { kind: 'spotfaced', diameter: 20, depth: 1, side } });
    const cuts = planCuts(
      simple([sunk('H1', 'B'), sunk('H2', 'B'), sunk('H3', 'A'), hole('H4', -40, 0, { from: 'A' })]),
      job,
      shopOf(null, 'mm'),
    ).flatMap((g) => g.cuts);
    expect(new Set(cuts.filter((c) => c.op === 'drill').map((c) => c.side))).toEqual(new Set(['B']));
    expect(cuts.filter((c) => c.side === 'A').map((c) => [c.hole, c.op])).toEqual([['H3', 'spotface']]);
  });

  test('a raised spigot is cut first of all, on its own side', () => {
    const spigot = {
      id: 'C1',
      kind: 'spigot',
      feature: null,
      part: null,
      x: 0,
      y: 0,
      diameter: 40,
      limits: null,
      side: 'A',
      depth: 4,
    } as const;
    const sunk = hole('H1', 40, 0, { sink: { kind: 'spotfaced', diameter: 20, depth: 1, side: 'B' } });
    const [first, second] = planCuts(
      simple([sunk, { ...sunk, id: 'H2', x: -40 }], { bores: [spigot] }),
      job,
      shopOf(null, 'mm'),
    );
    expect([first?.side, first?.cuts[0]?.op, second?.side]).toEqual(['A', 'turn', 'B']);
  });

  const central = {
    id: 'C1',
    kind: 'bore',
    feature: null,
    part: null,
    x: 0,
    y: 0,
    diameter: 20,
    limits: null,
    side: 'through',
    depth: null,
  } as const;

  test('a bore is opened by a drill that leaves the boring bar a millimetre all round', () => {
    const cuts = planCuts(simple([hole('H1', 60, 0)], { bores: [central] }), job, shopOf(null, 'mm')).flatMap(
      (g) => g.cuts,
    );
    expect(cuts.filter((c) => c.hole === 'C1').map((c) => [c.op, c.toolDiameter])).toEqual([
      ['spot', 6.35],
      ['pilot', 5.4],
      ['drill', 18],
      ['bore', 20],
    ]);
  });

  test('where nothing asks for the other side, all is cut in one setting', () => {
    const recess = {
      id: 'C1',
      kind: 'recess',
      feature: null,
      part: null,
      x: 0,
      y: 0,
      diameter: 40,
      limits: null,
      side: 'A',
      depth: 4,
    } as const;
    const groups = planCuts(simple([hole('H1', 40, 0)], { bores: [recess] }), job, shopOf(null, 'mm'));
    expect(new Set(groups.map((g) => g.side))).toEqual(new Set(['A']));
  });

  // Common practice: what is bored through in the first setting is what an indicator finds when the plate has been
  // turned over.
  test('a through bore is cut on the side that is cut first', () => {
    const bore = {
      id: 'C1',
      kind: 'bore',
      feature: null,
      part: null,
      x: 0,
      y: 0,
      diameter: 20,
      limits: null,
      side: 'through',
      depth: null,
    } as const;
    const register = (side: 'A' | 'B', kind: 'recess' | 'spigot') =>
      ({
        id: `C${side}`,
        kind,
        feature: null,
        part: null,
        x: 0,
        y: 0,
        diameter: 50,
        limits: null,
        side,
        depth: 4,
      }) as const;
    for (const [a, b] of [
      ['recess', 'spigot'],
      ['spigot', 'recess'],
      ['spigot', 'spigot'],
      ['recess', 'recess'],
    ] as const) {
      const groups = planCuts(
        simple([hole('H1', 40, 0)], { bores: [bore, register('A', a), register('B', b)] }),
        job,
        shopOf(null, 'mm'),
      );
      expect(groups.find((g) => g.cuts.some((c) => c.hole === 'C1' && c.op === 'bore'))?.side).toBe(groups[0]!.side);
    }
  });

  test('a pocket right through, about the middle of a through bore, is opened by it already', () => {
    const pocket = {
      ...central,
      id: 'C2',
      kind: 'relief',
      feature: 'pump.boss',
      part: { face: 'pump', feature: 'boss' },
      diameter: 40,
    } as const;
    const cuts = planCuts(simple([hole('H1', 60, 0)], { bores: [central, pocket] }), job, shopOf(null, 'mm')).flatMap(
      (g) => g.cuts,
    );
    expect(cuts.filter((c) => c.hole === 'C2').map((c) => c.op)).toEqual(['mill']);
    expect(cuts.filter((c) => c.hole === 'C1').map((c) => c.op)).toEqual(['spot', 'pilot', 'drill', 'bore']);
  });

  // ASME B18.3: flat heads of inch screws have 82°, ISO 10642: of metric ones 90°.
  test.each([
    [82, 19.837, 10.319],
    [90, 17.92, 9],
  ])('a countersink has the %i° of its screw, and its point is where the cone ends', (angle, wide, d) => {
    const half = (angle / 2) * (Math.PI / 180);
    const sunk = hole('H1', 0, 0, {
      diameter: d,
      sink: { kind: 'countersunk', diameter: wide, depth: (wide - d) / 2 / Math.tan(half), side: 'B' },
    });
    const cut = cutsOf(sunk).find((c) => c.op === 'countersink')!;
    expect(cut.tool).toContain(`${angle}°`);
    expect(cut.depth).toBeCloseTo(wide / 2 / Math.tan(half), 9);
  });

  test('every hole and bore of a plate is cut', () => {
    const cut = new Set(planCuts(plate, job, shopOf(null, 'mm')).flatMap((g) => g.cuts.map((c) => c.hole)));
    expect(cut).toEqual(new Set([...plate.holes, ...plate.bores].map((h) => h.id)));
  });
});

describe('where the metal does not end at the flats', () => {
  const spigot = (side: 'A' | 'B') =>
    ({
      id: 'C2',
      kind: 'spigot',
      feature: null,
      part: null,
      x: 0,
      y: 0,
      diameter: 60,
      limits: null,
      side,
      depth: 6,
    }) as const;
  const bore = {
    id: 'C1',
    kind: 'bore',
    feature: null,
    part: null,
    x: 0,
    y: 0,
    diameter: 20,
    limits: null,
    side: 'through',
    depth: null,
  } as const;
  const recessB = {
    id: 'C3',
    kind: 'recess',
    feature: null,
    part: null,
    x: 0,
    y: 0,
    diameter: 70,
    limits: null,
    side: 'B',
    depth: 5,
  } as const;
  const m8 = { name: 'M8', major: 8, pitch: 1.25, depth: null };
  const cuts = (h: PlateHole, bores: Parameters<typeof simple>[1]) =>
    planCuts(simple([h], bores), job, shopOf(null, 'mm')).flatMap((g) => g.cuts);
  const depth = (of: ReturnType<typeof cuts>, id: string, op: string): number =>
    of.find((c) => c.hole === id && c.op === op)!.depth;

  // Geometry: 20 mm of plate and 6 mm of spigot are 26 mm of metal.
  test('a hole, its thread and a bore go through a raised spigot on the far side', () => {
    const sunk = { kind: 'spotfaced', diameter: 15, depth: 1, side: 'B' } as const;
    const own = hole('H1', 20, 0, { as: 'tapped', diameter: 6.8, thread: m8, land: [-6, 20] });
    const of = cuts(own, {
      bores: [spigot('A'), bore, { ...recessB, diameter: 40 }],
      holes: [own, hole('H2', 45, 0, { sink: sunk }), hole('H3', -45, 0, { sink: sunk })],
    });
    expect(of.find((c) => c.hole === 'H1' && c.op === 'drill')!.side).toBe('B');
    expect(depth(of, 'H1', 'drill')).toBeGreaterThan(26 + 0.3 * 6.8);
    expect(depth(of, 'H1', 'tap')).toBeGreaterThan(26);
    const through = cuts(hole('H1', 45, 0, { sink: sunk }), { bores: [spigot('A'), spigot('B'), bore] });
    expect(depth(through, 'C1', 'bore')).toBeGreaterThan(26);
  });

  test('on a raised spigot a hole is spotted at its top, on the floor of a recess all depths count from there', () => {
    const top = cuts(hole('H1', 20, 0, { land: [0, 26] }), { bores: [spigot('B')] });
    expect(depth(top, 'H1', 'spot')).toBeLessThan(-2);
    const own = hole('H1', 20, 0, {
      as: 'tapped',
      diameter: 6.8,
      depth: 10,
      thread: { ...m8, depth: 6 },
      land: [0, 15],
    });
    const blind = cuts(own, { bores: [recessB] });
    expect(depth(blind, 'H1', 'drill')).toBeGreaterThan(15 + 0.3 * 6.8 - 0.1);
    expect(depth(blind, 'H1', 'tap')).toBeCloseTo(5 + 6 + 1.5 * 1.25, 9);
    const sunk = cuts(
      hole('H1', 20, 0, { sink: { kind: 'counterbored', diameter: 15, depth: 6, side: 'B' }, land: [0, 15] }),
      { bores: [recessB] },
    );
    expect(depth(sunk, 'H1', 'counterbore')).toBe(11);
  });
});

describe('speeds', () => {
  // Printed drilling speeds: 70 SFM at 1/2 in is 530 rev/min in a handbook's table (535 by the formula); read. The
  // lower end of the band for steel is 70.
  test('mild steel, 1/2 in drill', () => {
    const { speed } = speedsFor('steel', null)(drilling(12.7), 12.7);
    expect(speed).toBeGreaterThanOrEqual(530);
    expect(speed).toBeLessThanOrEqual(535);
  });

  // US Navy training manual 14345, high-speed steel twist drills, inches a turn; read.
  test.each([
    [3 / 32, 0.001, 0.002],
    [3 / 16, 0.002, 0.004],
    [3 / 8, 0.004, 0.007],
    [3 / 4, 0.007, 0.015],
  ])('a %d in drill is fed within the printed band', (inches, from, to) => {
    const { speed, feed } = speedsFor('steel', null)(drilling(inches * MM_PER_INCH), inches * MM_PER_INCH);
    const perTurn = feed! / speed! / MM_PER_INCH;
    expect(perTurn).toBeGreaterThanOrEqual(from - 1e-9);
    expect(perTurn).toBeLessThanOrEqual(to + 1e-9);
  });

  // Common practice: reamers at half a drill's speed, wide cutters at a third, taps at a quarter.
  test.each([
    ['ream', 2],
    ['counterbore', 3],
    ['spotface', 3],
    ['countersink', 3],
    ['chamfer', 3],
    ['tap', 4],
  ] as const)('%s: a drill’s speed divided by %i', (op, by) => {
    const speeds = speedsFor('aluminium', null);
    const drill = speeds(drilling(10), 10).speed ?? 0;
    expect(Math.abs((speeds({ ...drilling(10), op }, 10).speed ?? 0) - drill / by)).toBeLessThanOrEqual(1);
  });

  test('never above the machine’s top speed, and feeds follow', () => {
    const free = speedsFor('aluminium', null)(drilling(5), 5);
    const capped = speedsFor('aluminium', 2500)(drilling(5), 5);
    expect(free.speed).toBeGreaterThan(2500);
    expect(capped.speed).toBe(2500);
    expect(capped.feed! / capped.speed!).toBeCloseTo(free.feed! / free.speed!, 12);
  });

  test('none where the material is not known', () => {
    expect(speedsFor(null, 2500)(drilling(5), 5)).toEqual({ speed: null, feed: null });
    expect(speedsFor('cheese', 2500)(drilling(5), 5)).toEqual({ speed: null, feed: null });
  });
});
