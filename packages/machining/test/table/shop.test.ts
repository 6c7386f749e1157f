import { circlePath, polygonPath } from '@fayplate/core';
import type { Job, StackSpec } from '@fayplate/job';
import { type Plate, type PlateBore, withPitch } from '@fayplate/plate';
import { describe, expect, test } from 'vitest';
import { type MachinistTable, type TableOptions, machinistTable, tableCsv, tableReport } from '../../src/index.js';
import { boringPasses } from '../../src/operations/shop.js';
import { hole, job, plate, simple, withMachine } from '../fixture.js';

const IN = 25.4;
const made = (p: Plate, ofJob: Job, options: TableOptions = {}): MachinistTable => {
  const t = machinistTable(p, ofJob, options);
  if (!t.ok) throw new Error(t.faults.join('\n'));
  return t.table;
};
const textOf = (t: MachinistTable): string => JSON.stringify(tableReport(t));

const outline = (width: number, height: number): Plate['outline'] => ({
  shape: 'rectangle',
  path: polygonPath([
    { x: -width / 2, y: -height / 2 },
    { x: width / 2, y: -height / 2 },
    { x: width / 2, y: height / 2 },
    { x: -width / 2, y: height / 2 },
  ]),
  area: width * height,
  mass: null,
  blank: { width, height, thickness: 20 },
});

describe('the blank', () => {
  // By hand: 9.32 and twice 3 mm (0.118) is 9.556, sawn at the next eighth 9 5/8; 8.82 and 0.236 is 9.056, 9 1/8.
  test('an outline of 9.32 × 8.82 in is cut from 9 5/8 × 9 1/8, and the words say so', () => {
    const p = simple([hole('H1', 20, 20)], { outline: outline(9.32 * IN, 8.82 * IN) });
    const t = made(p, { ...job, units: 'in' });
    expect(t.blank.width / IN).toBeCloseTo(9.625, 12);
    expect(t.blank.height / IN).toBeCloseTo(9.125, 12);
    expect(t.notes[0]).toMatch(/^Blank: 9 5\/8 × 9 1\/8 in/);
    expect(t.notes[0]).toMatch(/The finished outline, 9\.32 × 8\.82 in/);
    // Zero in the middle of the outline, which lies in the middle of the blank.
    expect(t.setups[0]!.says).toMatch(/4\.8125 in from the left edge of the blank and 4\.5625 in from its lower edge/);
  });

  test('the allowance that the job states, and a blank that it has', () => {
    const p = simple([hole('H1', 20, 20)]);
    expect(made(p, withMachine({ allowance: 5 })).blank).toMatchObject({ width: 210, height: 110, allowance: 5 });
    const own = withMachine({ blank: { width: 250, height: 150, thickness: 25 } });
    expect(made(p, own).blank).toMatchObject({ width: 250, height: 150, allowance: 25 });
    expect(made(p, own).stock).toMatchObject({ thickness: 25, faced: 5 });
  });

  // The left edge of the drawing lies on the right when side A is uppermost.
  test('with side A uppermost the left edge is the drawing’s right', () => {
    const p = simple([hole('H1', 12, 7, { from: 'A', depth: 8 })]);
    const says = made(p, withMachine({ tip: 6 }), { origin: 'H1' }).setups[0]!.says;
    // 100 + 3 + 12 = 115 to the drawing's left edge, 91 to its right; 50 + 3 + 7 = 60 to the lower one.
    expect(says).toMatch(/91\.000 mm from the left edge.*60\.000 mm from its lower/);
    expect(says).toMatch(/left edge set X to −94\.000, at the lower edge Y to −63\.000/);
  });
});

describe('thickness as it is bought', () => {
  // Floor 44, reach 61.2, gasket 0.8 and so on of a pump: the plate may be 17.9 to 18.9 at the worst.
  const stack: StackSpec = {
    links: [
      { name: 'reach', value: 61.2, plusMinus: 0.2 },
      { name: 'floor', value: 44, plusMinus: 0.2 },
      { name: 'gasket', value: 0.8, plusMinus: 0.1 },
    ],
    unknown: { name: 'plate', from: 12, to: 30, made: null },
    shims: null,
    onHand: null,
    limits: [
      {
        name: 'tip gap',
        sum: new Map([
          ['floor', 1],
          ['plate', 1],
          ['gasket', 1],
          ['reach', -1],
        ]),
        least: 1,
        most: 3,
      },
    ],
  };
  const p = simple([hole('H1', 20, 20, { land: [0, 18.4] })], {
    thickness: 18.4,
    outline: { ...outline(200, 100), blank: { width: 200, height: 100, thickness: 18.4 } },
  });
  const planned = { thickness: 'from stack', drilling: null, locate: new Map() } as unknown as Job['plate'];

  test('in inches: from 3/4, faced to 0.724, with the window of 0.705 to 0.744 beside it', () => {
    const t = made(p, { ...job, units: 'in', stack, plate: planned });
    expect(t.stock).toMatchObject({ name: '3/4 in', side: 'B' });
    expect(t.stock.faced).toBeCloseTo(0.65, 9);
    expect(t.stock.window).toEqual([expect.closeTo(17.9, 9), expect.closeTo(18.9, 9)]);
    expect(t.rows[0]).toMatchObject({ n: 1, op: 'face', hole: 'face', side: 'B' });
    expect(t.notes[0]).toMatch(/3\/4 in thick, faced to 0\.724 in \(0\.705 in to 0\.744 in will do\)/);
    expect(t.notes[1]).toMatch(/^Plate of 18 mm is within those limits as bought/);
    expect(textOf(t)).toContain('thick 0.705 to 0.744');
    expect(textOf(t)).not.toContain('0.7244');
    const [head = '', first = ''] = tableCsv(t).split('\r\n');
    expect(head).toMatch(/size from in,size to in,depth from in,depth to in,cuts$/);
    expect(first).toMatch(/^1,B,face,face,face mill or fly cutter,,,,,,,0\.0256,,,,0\.7047,0\.7441,,,$/);
  });

  test('in millimetres: 20 faced, and where the thickness is one that is sold, no facing', () => {
    expect(made(p, { ...job, stack, plate: planned }).stock).toMatchObject({ name: '20 mm' });
    const twenty = made(simple([hole('H1', 20, 20)]), job);
    expect(twenty.stock).toMatchObject({ name: '20 mm', faced: 0, window: null });
    expect(twenty.rows.some((r) => r.op === 'face')).toBe(false);
  });
});

describe('sizes', () => {
  const bore = (more: Partial<PlateBore>): PlateBore => ({
    id: 'C1',
    kind: 'bore',
    feature: null,
    part: null,
    x: 0,
    y: 0,
    diameter: 50,
    limits: null,
    side: 'through',
    depth: null,
    ...more,
  });
  const rowsOf = (b: PlateBore) => made(simple([hole('H1', 60, 0)], { bores: [b] }), job).rows;
  const last = (b: PlateBore) => rowsOf(b).find((r) => r.op === 'bore' || r.op === 'turn')!;

  // ISO 286-2: H7 of 50 is +25, of 6 +12 µm, h7 of 50 is −25 µm (read in a handbook table); ISO 2768-1 m: 50 is ± 0.3,
  // 4 is ± 0.1 (from memory).
  test('every bore and register has limits: H7 for a recess, h7 for a spigot, general ones for what only clears', () => {
    expect(last(bore({ kind: 'recess', side: 'A', depth: 4 }))).toMatchObject({
      limits: [50, expect.closeTo(50.025, 9)],
      depthLimits: [4, expect.closeTo(4.2, 9)],
    });
    expect(last(bore({ kind: 'spigot', side: 'B', depth: 4 }))).toMatchObject({
      limits: [expect.closeTo(49.975, 9), 50],
      depthLimits: [expect.closeTo(3.8, 9), 4],
    });
    expect(last(bore({})).limits).toEqual([expect.closeTo(49.7, 9), expect.closeTo(50.3, 9)]);
    expect(last(bore({ limits: [50.01, 50.03] })).limits).toEqual([50.01, 50.03]);
  });

  // By hand: from 25 to 50 is 12.5 on the radius, a tenth of it last: 12.4 in millimetres is 13 cuts, and one.
  test('cuts of a boring head', () => {
    expect(last(bore({})).passes).toBe(14);
    expect(boringPasses(25, 50, 'steel')).toBe(26);
    expect(boringPasses(49.9, 50, 'steel')).toBe(1);
  });

  test('many cuts name the other ways, with the swing that a faceplate needs', () => {
    // Half of 206 and of 106 from the middle: √(103² + 53²) = 115.84, twice it 231.7.
    const words = made(simple([hole('H1', 80, 0)], { bores: [bore({ diameter: 60 })] }), job).notes.join(' ');
    expect(words).toMatch(
      /C1 is 19 cuts with a boring head that reaches 60 mm\. Quicker: trepan it.*faceplate.*swings 232 mm/,
    );
  });

  test('a dowel hole is reamed to its limits, or bored where there is no reamer of its size', () => {
    const dowel = (d: number) => hole('H1', 0, 0, { as: 'dowel', diameter: d, limits: [d, d + 0.015] });
    const row = (d: number, ofJob = job) =>
      made(simple([dowel(d)]), ofJob).rows.find((r) => r.op === 'ream' || r.op === 'bore')!;
    expect(row(8)).toMatchObject({ op: 'ream', tool: '8 mm reamer', limits: [8, 8.015] });
    expect(row(24)).toMatchObject({ op: 'bore', limits: [24, 24.015] });
    expect(row(8, withMachine({ reamers: [{ name: '6 mm', diameter: 6 }] }))).toMatchObject({ op: 'bore' });
  });

  test('a slot is milled with the size below, then brought to its width', () => {
    const slot = hole('H1', 0, 0, { as: 'slot', diameter: 8, limits: [8, 8.015], slot: { length: 3, angle: 0 } });
    const rows = made(simple([slot]), job).rows.filter((r) => r.op === 'mill');
    expect(rows.map((r) => r.tool)).toEqual(Array.from({ length: 3 }, () => 'end mill 7 mm'));
    expect(rows.map((r) => r.limits)).toEqual([null, null, [8, 8.015]]);
    const inch = made(simple([{ ...slot, diameter: 0.375 * IN }]), { ...job, units: 'in' });
    expect(inch.rows.find((r) => r.op === 'mill')!.tool).toBe('end mill 5/16 in');
  });

  // ISO 261: the coarse pitch of M10 is 1.5.
  test('a tap says its pitch', () => {
    expect(withPitch('M10', 1.5)).toBe('M10 × 1.5');
    expect(withPitch('M10x1.25', 1.25)).toBe('M10 × 1.25');
    expect(withPitch('3/8-16 UNC', IN / 16)).toBe('3/8-16 UNC');
    expect(made(plate, job).rows.find((r) => r.op === 'tap')!.tool).toBe('tap M10 × 1.5');
  });

  test('one drill serves where it can: the tapping drill as pilot, a whole size to start a bore', () => {
    const tools = made(plate, job).rows.filter((r) => r.op === 'pilot' || r.op === 'drill');
    expect(tools.filter((r) => r.op === 'pilot').map((r) => r.tool)).toEqual(['drill 8.5 mm']);
    expect(tools.filter((r) => r.hole === 'C1').map((r) => r.toolDiameter)).toEqual([8.5, 25]);
  });

  test('the stated drilling ± stands on the page, and what is counted on where none is stated', () => {
    const stated = { ...job, plate: { drilling: 0.05, locate: new Map() } as unknown as Job['plate'] };
    expect(textOf(made(plate, stated))).toContain('holes within ± 0.05 mm of their places');
    expect(textOf(made(plate, job))).toContain('± 0.50 mm, paper and punch');
  });
});

describe('setting out and holding', () => {
  const words = (p: Plate): string => made(p, job).notes.join(' ');
  test('the outline: a circle, a rectangle, arcs about holes', () => {
    expect(words(plate)).toMatch(/circle of radius 90\.00 mm about C1/);
    expect(words(simple([hole('H1', 20, 0)]))).toMatch(
      /rectangle of 200 × 100 mm with square corners, as seen from side B from X −100\.00 to 100\.00 and from Y −50\.00 to 50\.00\./,
    );
    const r = 20;
    const follow: Plate['outline'] = {
      ...outline(140, 40),
      shape: 'follow',
      path: {
        start: { x: -50, y: -r },
        closed: true,
        edges: [
          { kind: 'line', to: { x: 50, y: -r } },
          { kind: 'arc', to: { x: 50, y: r }, centre: { x: 50, y: 0 }, ccw: true },
          { kind: 'line', to: { x: -50, y: r } },
          { kind: 'arc', to: { x: -50, y: -r }, centre: { x: -50, y: 0 }, ccw: true },
        ],
      },
    };
    expect(words(simple([hole('H1', -50, 0), hole('H2', 50, 0)], { outline: follow }))).toMatch(
      /arcs of radius 20\.00 mm about H2 and H1; straight lines touch each arc and the next/,
    );
  });

  test('clamps stand clear of every cut, far apart; with no room for them the words say how else', () => {
    const t = made(plate, job);
    const [, x1, y1, x2, y2] =
      /at X ([−-]?\d+), Y ([−-]?\d+) and at X ([−-]?\d+), Y ([−-]?\d+)/.exec(words(plate)) ?? [];
    const at = [
      [x1, y1],
      [x2, y2],
    ].map((p) => p.map((v) => Number((v ?? 'x').replace('−', '-'))));
    for (const [x = Number.NaN, y = Number.NaN] of at)
      for (const r of t.rows.filter((q) => q.side === 'B'))
        expect(Math.hypot(r.x - x, r.y - y) - r.toolDiameter / 2).toBeGreaterThan(11);
    expect(Math.hypot(at[0]![0]! - at[1]![0]!, at[0]![1]! - at[1]![1]!)).toBeGreaterThan(90);
    const small = {
      ...simple([hole('H1', 0, 0)]),
      outline: { ...outline(20, 20), path: circlePath({ x: 0, y: 0 }, 10) },
    };
    expect(words(small)).toMatch(/no metal within the outline is wide enough/);
  });

  test('in the piece that takes the other, dowel holes wait to be drilled through that one', () => {
    const p = simple([hole('H1', 60, 0), hole('H2', 0, 30, { as: 'dowel', diameter: 8, fastener: 8 })]);
    const joint = { piece: 'ring', face: 'the plate', beyond: 'motor', takes: true };
    const cut = (of: Plate) => made(of, job).rows.filter((r) => r.hole === 'H2').length;
    expect(cut(p)).toBeGreaterThan(0);
    expect(cut({ ...p, joint: { ...joint, takes: false } })).toBeGreaterThan(0);
    expect(cut({ ...p, joint })).toBe(0);
    expect(words({ ...p, joint })).toMatch(/H2 is not cut here: drilled and reamed through the plate/);
  });

  // By hand: 20.9 + 3 is 23.9, and 25 is bought, so 1.1 comes off. A drill of 9 mm comes 1 + 9/2 · tan 31° = 3.7 mm
  // through, a tenth short of 4; the spigot stands 3 mm out.
  test('a raised spigot: faced to its top first, and packed clear of it when the plate is turned over', () => {
    const thick = 20.9;
    const p = simple([hole('H1', 80, 0, { land: [0, thick] })], {
      thickness: thick,
      outline: { ...outline(200, 100), blank: { width: 200, height: 100, thickness: 23.9 } },
      bores: [
        { ...plate.bores[0]!, id: 'C1' },
        { ...plate.bores[0]!, id: 'C2', kind: 'spigot', side: 'A', diameter: 60, depth: 3 },
        { ...plate.bores[0]!, id: 'C3', kind: 'recess', side: 'B', diameter: 50, depth: 5 },
        { ...plate.bores[0]!, id: 'C4', kind: 'recess', side: 'B', x: -70, diameter: 20, depth: 5 },
      ],
    });
    const t = made(p, job);
    expect(t.setups.map((s) => s.side)).toEqual(['A', 'B']);
    expect(t.rows[0]).toMatchObject({ op: 'face', side: 'A', limits: null, depth: expect.closeTo(1.1, 9) });
    expect(t.rows[1]).toMatchObject({ op: 'turn', hole: 'C2', note: expect.stringMatching(/mill the flat round it/) });
    expect(t.setups[1]!.says).toMatch(/Pack the plate up at least 4 mm under its flat: C2 stands 3 mm out below/);
    expect(words(p)).toMatch(/Hold the blank by its edges while its face is milled\. Then clamps may stand/);
  });

  // By hand: 159 sawn for 152.04 and twice 3; half of 6.96 is 3.48.
  test('what is promised at least is rounded down, so that it stays true', () => {
    const p = simple([hole('H1', 20, 20)], { outline: outline(152.04, 152.04) });
    expect(words(p)).toMatch(/152\.04 × 152\.04 mm, leaves at least 3\.4 mm round it/);
    const t = made(plate, { ...job, units: 'in' });
    const [, x1 = '', y1 = '', x2 = '', y2 = '', said = ''] =
      /at X (\S+), Y (\S+) and at X (\S+), Y (\S+) as seen from side B: no cut comes within (\S+) in/.exec(
        t.notes.join(' '),
      ) ?? [];
    const number = (text: string): number => 25.4 * Number(text.replace('−', '-'));
    const at = [
      { x: number(x1), y: number(y1) },
      { x: number(x2), y: number(y2) },
    ];
    const clear = at.map((p) =>
      Math.min(
        ...t.rows
          .filter((r) => r.op !== 'face')
          .map((r) => Math.hypot(r.x - p.x, r.y - p.y) - Math.max(r.toolDiameter, r.limits?.[1] ?? 0) / 2),
      ),
    );
    expect(Math.min(...clear)).toBeGreaterThanOrEqual(number(said));
    expect(Math.min(...clear)).toBeLessThan(number(said) + 1);
  });

  test('stamped before it is drilled, sawn last', () => {
    const notes = made(plate, job).notes;
    expect(notes.findIndex((n) => n.includes('stamp B on side B and 12'))).toBeLessThan(
      notes.findIndex((n) => n.startsWith('Saw and file the outline last')),
    );
  });
});
