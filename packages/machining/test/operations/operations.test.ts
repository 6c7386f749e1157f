import { MM_PER_INCH } from '@fayplate/core';
import { describe, expect, test } from 'vitest';
import { drillDepth } from '../../src/operations/depth.js';
import { planCuts } from '../../src/operations/plan.js';
import { shopOf } from '../../src/operations/shop.js';
import { speedsFor } from '../../src/operations/speed.js';
import type { Cut } from '../../src/operations/operation.js';
import type { PlateHole } from '@fayplate/plate';
import { hole, job, plate, simple, withMachine } from '../fixture.js';

const cutsOf = (h: PlateHole, ofJob = job) => planCuts(simple([h]), ofJob, shopOf(ofJob.machine, ofJob.units)).flatMap((g) => g.cuts);
const drilling = (diameter: number): Cut => ({ hole: 'H1', at: { x: 0, y: 0 }, op: 'drill', tool: 'drill', toolDiameter: diameter, depth: 10, side: 'B', pitch: null, note: null });

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
    ['counterbored', hole('H1', 0, 0, { sink: { kind: 'counterbored', diameter: 15, depth: 6, side: 'B' } }), ['spot', 'drill', 'counterbore']],
    ['tapped', hole('H1', 0, 0, { as: 'tapped', diameter: 8.5, thread: { name: 'M10', major: 10, pitch: 1.5, depth: null } }), ['spot', 'drill', 'tap', 'chamfer']],
    ['a dowel', hole('H1', 0, 0, { as: 'dowel', diameter: 6 }), ['spot', 'drill', 'ream', 'chamfer']],
    ['a slot', hole('H1', 0, 0, { as: 'slot', diameter: 6, slot: { length: 3, angle: 0 } }), ['spot', 'spot', 'drill', 'drill', 'mill']],
  ])('%s', (_, h, wanted) => {
    expect(ops(h)).toEqual(wanted);
  });

  test('a dowel hole is drilled under size, however the shop’s drills come', () => {
    const onHand = withMachine({ drills: [{ name: '5.5 mm', diameter: 5.5 }, { name: '6 mm', diameter: 6 }] });
    for (const ofJob of [job, onHand]) {
      const drill = cutsOf(hole('H1', 0, 0, { as: 'dowel', diameter: 6 }), ofJob).find((c) => c.op === 'drill')!;
      expect(drill.toolDiameter).toBeLessThanOrEqual(5.8);
    }
  });

  test('new dowels are reamed at assembly, and the table says so', () => {
    const spec = { as: 'new dowels', count: 2, diameter: 6 } as const;
    const reamed = { ...job, plate: { locate: new Map([['motor', spec]]) } as unknown as NonNullable<typeof job.plate> };
    expect(cutsOf(hole('H1', 0, 0, { as: 'dowel', diameter: 6 }), reamed).find((c) => c.op === 'ream')!.note).toMatch(/at assembly/);
  });

  test('a tapped blind hole is drilled deeper than it is tapped, and never through', () => {
    const cuts = cutsOf(hole('H1', 0, 0, { as: 'tapped', diameter: 8.5, depth: 14, thread: { name: 'M10', major: 10, pitch: 1.5, depth: 10 } }));
    const depth = (op: string): number => cuts.find((c) => c.op === op)!.depth;
    expect(depth('tap')).toBe(10);
    expect(depth('drill')).toBeGreaterThan(14);
    expect(depth('drill')).toBeLessThan(20);
  });

  test('through holes are all drilled from the side where most is sunk; what is sunk on the other side is sunk there', () => {
    const sunk = (id: string, side: 'A' | 'B') => hole(id, 20 * Number(id.slice(1)), 0, { from: 'A', sink: { kind: 'spotfaced', diameter: 20, depth: 1, side } });
    const cuts = planCuts(simple([sunk('H1', 'B'), sunk('H2', 'B'), sunk('H3', 'A'), hole('H4', -40, 0, { from: 'A' })]), job, shopOf(null, 'mm')).flatMap((g) => g.cuts);
    expect(new Set(cuts.filter((c) => c.op === 'drill').map((c) => c.side))).toEqual(new Set(['B']));
    expect(cuts.filter((c) => c.side === 'A').map((c) => [c.hole, c.op])).toEqual([['H3', 'spotface']]);
  });

  test('a raised spigot is cut first of all, on its own side', () => {
    const spigot = { id: 'C1', kind: 'spigot', feature: null, x: 0, y: 0, diameter: 40, limits: null, side: 'A', depth: 4 } as const;
    const [first, second] = planCuts(simple([hole('H1', 40, 0)], { bores: [spigot] }), job, shopOf(null, 'mm'));
    expect([first?.side, first?.cuts[0]?.op, second?.side]).toEqual(['A', 'turn', 'B']);
  });

  test('every hole and bore of a plate is cut', () => {
    const cut = new Set(planCuts(plate, job, shopOf(null, 'mm')).flatMap((g) => g.cuts.map((c) => c.hole)));
    expect(cut).toEqual(new Set([...plate.holes, ...plate.bores].map((h) => h.id)));
  });
});

describe('speeds', () => {
  // Printed drilling speeds: 70 SFM at 1/2 in is 530 rev/min in a handbook's table (535 by the formula); read. The lower end of the band for steel is 70.
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
