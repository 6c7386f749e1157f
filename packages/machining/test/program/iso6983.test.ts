import { describe, expect, test } from 'vitest';
import {
  type MachinistTable,
  type ProgramOptions,
  type TableOptions,
  type TableRow,
  iso6983,
  machinistTable,
} from '../../src/index.js';
import { comment, cycleWords } from '../../src/program/words.js';
import { hole, job, plate, simple, withMachine } from '../fixture.js';
import { run } from './interpreter.js';

const tableOf = (options: TableOptions = {}, ofJob = job, p = plate): MachinistTable => {
  const t = machinistTable(p, ofJob, options);
  if (!t.ok) throw new Error(t.faults.join());
  return t.table;
};
const programs = (table: MachinistTable, options: ProgramOptions = {}, p = plate) => {
  const made = iso6983(p, table, options);
  if (!made.ok) throw new Error(made.faults.join());
  return made.programs;
};
const isDrilled = (r: TableRow): boolean => !['bore', 'mill', 'turn', 'face'].includes(r.op);
const isBored = (r: TableRow): boolean => r.op === 'bore';
/** The program of a side's drilling. */
const sideOf = (all: ReturnType<typeof programs>, side: 'A' | 'B') =>
  all.find((p) => p.name === `side-${side.toLowerCase()}`);
const SAFE = 50;
const oneSided = withMachine({ backlash: { x: -1, y: -1 } });

// Common practice: beyond three diameters the chips no longer clear themselves.
test.each([
  [26.9, 'G81'],
  [27.1, 'G83'],
])('a hole of 9 that is %d mm deep: %s', (depth, cycle) => {
  const row = tableOf().rows.find((r) => r.op === 'drill' && r.toolDiameter === 9);
  if (row === undefined) throw new Error('no drill of 9');
  expect(cycleWords({ ...row, depth }, 'mm', false)?.[0]).toBe(cycle);
});

describe('the program, simulated', () => {
  test.each([
    ['mm', {}, job],
    ['in', { unit: 'in' }, job],
    ['from the blank’s corner', { origin: 'lower left corner' }, job],
    ['coming from one side', { oneSided: true }, oneSided],
  ] as const)('%s: every cut is where, as deep and in the order that the table says', (_, options, ofJob) => {
    const table = tableOf(options, ofJob);
    const all = programs(table);
    for (const side of ['A', 'B'] as const) {
      const cut = table.rows.filter((r) => r.side === side && isDrilled(r));
      const made = sideOf(all, side);
      expect(made === undefined).toBe(cut.length === 0);
      if (made === undefined) continue;
      const ran = run(made.text, { plane: SAFE });
      expect(ran.unit).toBe(table.unit);
      expect(ran.ended).toBe(true);
      expect(ran.drilled).toHaveLength(cut.length);
      for (const [i, r] of cut.entries()) {
        const d = ran.drilled[i]!;
        expect(Math.abs(d.x - r.set.x) + Math.abs(d.y - r.set.y)).toBeLessThan(1e-9);
        expect(Math.abs(d.bottom + r.depth)).toBeLessThanOrEqual(table.unit === 'in' ? 0.00127001 : 0.000501);
        expect(d.speed).toBe(r.speed);
        expect(Math.abs(d.feed - r.feed!)).toBeLessThanOrEqual(table.unit === 'in' ? 0.127001 : 0.500001);
        expect(d.turning).toBe(true);
      }
    }
    for (const r of table.rows.filter(isBored)) {
      const own = all.find((p) => p.name === `side-${r.side.toLowerCase()}-bore-${r.hole.toLowerCase()}`);
      const [d, ...more] = run(own?.text ?? '', { plane: SAFE }).drilled;
      expect(more).toEqual([]);
      expect(Math.abs(d!.x - r.set.x) + Math.abs(d!.y - r.set.y)).toBeLessThan(1e-9);
      expect(d).toMatchObject({ cycle: 'G85', speed: r.speed, turning: true });
      expect(own?.text).toContain(`RUN ONCE FOR EACH CUT - ${r.passes} CUTS`);
    }
  });

  test('the opening, word for word, in both dialects', () => {
    const blocks = (text: string): readonly string[] => text.split('\n').filter((l) => l.startsWith('N'));
    const [usual] = programs(tableOf());
    const [standard] = programs(tableOf(), { dialect: 'standard' });
    const drilling = ['G54', 'T1 M06', 'M00', 'S3055 M03', 'G00 G43 Z50.000 H1'];
    expect(
      blocks(usual!.text)
        .slice(0, 6)
        .map((l) => l.replace(/^N\d+ /, '')),
    ).toEqual(['G17 G21 G40 G49 G80 G90 G94', ...drilling]);
    expect(blocks(standard!.text)[0]).toBe('N10 G17 G71 G40 G49 G80 G90 G94');
    expect(standard!.text).not.toMatch(/G28|G20|G21/);
    const [inch] = programs(tableOf({ unit: 'in' }));
    expect(inch!.text).toMatch(/^N10 G17 G20 G40 G49 G80 G90 G94$/m);
  });

  test('no dwell, whose unit is the control’s own', () => {
    for (const { text } of programs(tableOf())) expect(text).not.toMatch(/ P\d|G82|G04/);
  });

  test('every program runs on the machine in both dialects, with one stop and one change for every tool', () => {
    for (const dialect of ['usual', 'standard'] as const) {
      const table = tableOf();
      for (const { side, name, text } of programs(table, { dialect })) {
        const ran = run(text, { plane: SAFE });
        expect(ran.lowestTraverse).toBeCloseTo(SAFE, 9);
        expect(ran.ended).toBe(true);
        if (name !== `side-${side.toLowerCase()}`) expect(ran.toolChanges).toHaveLength(1);
        else {
          const tools = table.rows.filter((r) => r.side === side && isDrilled(r)).map((r) => r.tool);
          expect(ran.toolChanges).toHaveLength(tools.filter((t, i) => t !== tools[i - 1]).length);
        }
        expect(ran.stops.length).toBeGreaterThanOrEqual(ran.toolChanges.length);
      }
    }
  });

  test('the plane that the job states, and room for every tool: a machine with too little is refused before the metal is', () => {
    const low = tableOf({}, withMachine({ safePlane: 80 }));
    for (const { text } of programs(low)) expect(run(text, { plane: 80 }).lowestTraverse).toBeCloseTo(80, 9);
    // Plate 20 and packing 20 leave 260 of 300: a drill of 25 with a taper shank is 281 long (DIN 345), about 286 here.
    const tight = iso6983(plate, tableOf({}, withMachine({ room: 300 })));
    expect(tight.ok ? '' : tight.faults.join()).toMatch(
      /drill 25 mm is about 286\.0 mm long and the machine has 260\.0 mm/,
    );
    const ample = withMachine({ room: 340 });
    const table = tableOf({}, ample);
    const made = sideOf(programs(table), 'B')!;
    const lengths = new Map(
      [...new Set(table.rows.filter((r) => r.side === 'B' && isDrilled(r)).map((r) => r.tool))].map((tool, i) => [
        i + 1,
        table.rows.find((r) => r.tool === tool)!.toolLength,
      ]),
    );
    expect(run(made.text, { room: 300, lengths }).ended).toBe(true);
    expect(() => run(made.text, { room: 260, lengths })).toThrow('longer than the room');
  });

  // By hand: a slot of 6 wide, ends 4 apart at (−47, −5) and (−43, −5); end mill of 5; H7 of 6 is 6.000 to 6.012 (ISO
  // 286-2).
  test('a slot is milled with the size below and brought to size round its flanks', () => {
    const p = simple([
      hole('H1', -45, -5, { as: 'slot', diameter: 6, limits: [6, 6.012], slot: { length: 4, angle: 0 } }),
    ]);
    const table = tableOf({}, job, p);
    const made = programs(table, {}, p).find((q) => q.name.includes('slot'))!;
    expect(made.text).toContain('WIDTH 6.000 MM TO 6.012 MM');
    const { milled } = run(made.text, { plane: SAFE });
    const reach = (pick: (m: (typeof milled)[number]) => number): number => Math.max(...milled.map(pick));
    expect(Math.min(...milled.map((m) => m.to.z))).toBeCloseTo(-21, 9);
    // Half of 6.006 less 5 is 0.503 beside the middle.
    expect(reach((m) => m.to.y)).toBeCloseTo(-5 + 0.503, 3);
    expect(Math.min(...milled.map((m) => m.to.y))).toBeCloseTo(-5 - 0.503, 3);
    expect(milled.filter((m) => m.centre !== null).map((m) => m.centre!.x)).toEqual([
      expect.closeTo(-43, 3),
      expect.closeTo(-47, 3),
    ]);
  });

  test('what is reamed at assembly is left out, and said', () => {
    const spec = { as: 'new dowels', count: 2, diameter: 6 } as const;
    const ofJob = { ...job, plate: { locate: new Map([['motor', spec]]) } as unknown as NonNullable<typeof job.plate> };
    const p = simple([
      hole('H1', 30, 0, { as: 'dowel', diameter: 6 }),
      hole('H2', -30, 0, { as: 'dowel', diameter: 6, feature: 'pump.D1' }),
    ]);
    const b = sideOf(programs(tableOf({}, ofJob, p), {}, p), 'B');
    const reamed = run(b!.text).drilled.filter((d) => d.cycle === 'G85');
    expect(reamed.map((d) => d.x)).toEqual([-30]);
    expect(b!.text).toMatch(/H1 - REAM AT ASSEMBLY - NOT HERE/);
  });

  test('the safe plane clears a spigot that stands proud', () => {
    const p = simple([hole('H1', 60, 0)], {
      bores: [
        {
          id: 'C1',
          kind: 'spigot',
          feature: null,
          part: null,
          x: 0,
          y: 0,
          diameter: 40,
          limits: null,
          side: 'B',
          depth: 8,
        },
      ],
    });
    const [b] = programs(tableOf({}, job, p), {}, p);
    expect(run(b!.text).lowestTraverse).toBeCloseTo(58, 9);
  });

  test('coming from one side, every hole is entered from below and left', () => {
    const [b] = programs(tableOf({ oneSided: true }, oneSided));
    for (const d of run(b!.text).drilled) {
      expect(d.from!.x).toBeLessThanOrEqual(d.x);
      expect(d.from!.y).toBeLessThanOrEqual(d.y);
    }
  });

  test.each([20, 70])(
    'dry run of a plate %i mm thick: same places, 2 in or more up, never within 5 mm of the work, spindle stopped',
    (thickness) => {
      const p = { ...plate, thickness };
      const table = tableOf({}, job, p);
      const wet = programs(table, {}, p).map((q) => run(q.text));
      for (const [i, q] of programs(table, { dryRun: true }, p).entries()) {
        const ran = run(q.text, { dry: true });
        expect(ran.drilled.map((d) => [d.x, d.y])).toEqual(wet[i]!.drilled.map((d) => [d.x, d.y]));
        expect(ran.drilled.some((d) => d.turning)).toBe(false);
        expect(ran.lowest).toBeGreaterThanOrEqual(5 - 1e-9);
        for (const [k, d] of ran.drilled.entries())
          expect(d.bottom - wet[i]!.drilled[k]!.bottom).toBeGreaterThanOrEqual(50.8 - 2e-3);
      }
    },
  );

  test('deep holes are pecked by their diameter, shallow ones are not', () => {
    const p = simple([hole('H1', 0, 0, { diameter: 4 }), hole('H2', 30, 0, { diameter: 12 })]);
    const drilled = programs(tableOf({}, job, p), {}, p).flatMap((q) => run(q.text).drilled);
    expect(drilled.find((d) => d.cycle === 'G83')).toMatchObject({ x: 0, peck: 4 });
    expect(drilled.filter((d) => d.x === 30).map((d) => d.cycle)).not.toContain('G83');
  });

  test('a tap’s feed is its pitch times its turns', () => {
    const taps = programs(tableOf({ unit: 'in' }))
      .flatMap((q) => run(q.text).drilled)
      .filter((d) => d.cycle === 'G84');
    expect(taps).toHaveLength(4);
    for (const t of taps) expect(t.feed / t.speed).toBeCloseTo(1.5, 4);
  });

  test('without a material there is no program, and the advice says why', () => {
    const p = { ...plate, material: null };
    const made = iso6983(p, tableOf({}, job, p));
    expect(made.ok ? '' : made.faults.join()).toMatch(/material/);
  });
});

describe('the interpreter itself', () => {
  // Sample blocks as printed with NIST's RS-274/NGC interpreter (NISTIR 6556), read in two public copies.
  test('reads published sample cycles', () => {
    const ran = run('n1 g20 g90 g0 z3\ng81 x3 y4 r0.2 z-1.1 f5\ng83 g90 x5 y6 r0.2 z-1.1 q0.21\nm30', {
      trusting: true,
    });
    expect(ran.drilled.map(({ x, y, bottom, cycle, peck }) => ({ x, y, bottom, cycle, peck }))).toEqual([
      { x: 3 * 25.4, y: 4 * 25.4, bottom: -1.1 * 25.4, cycle: 'G81', peck: null },
      { x: 5 * 25.4, y: 6 * 25.4, bottom: -1.1 * 25.4, cycle: 'G83', peck: 0.21 * 25.4 },
    ]);
  });

  const start = 'G17 G71 G40 G49 G80 G90 G94\nG54\nT1 M06\nM03 S500\nG00 G43 Z50 H1\n';
  test.each([
    ['G71 G90 G64 X5', 'G64'],
    ['G90 G00 X5', 'zero'],
    ['G71 G90 X5', 'no motion word'],
    ['HELLO', 'not a block'],
    ['G17 G71 G40 G49 G80 G90 G94\nG00 Z50', 'before zero'],
    ['G17 G71 G40 G49 G80 G90 G94\nG54\nT1 M06\nG00 X10', 'length is set'],
    ['G71 G90\nG54\nT1 M06\nG00 G43 Z50 H1', 'before G17'],
    ['G17 G71 G40 G49 G80 G90 G94\nG54\nT1 M06\nG00 G43 Z50 H2', 'another tool'],
    [`${start}G81 X1 Y1 Z-5 R60 F10`, 'levels'],
    [`${start}G81 X1 Y1 Z-5 R2`, 'without'],
    [`${start}M05\nG81 X1 Y1 Z-5 R2 F10`, 'without spindle'],
    [`${start}M05\nG01 Z-5 F10`, 'without spindle'],
    [`${start}G00 Z20`, 'below the plane'],
    [`${start}G01 Z2 F10\nG00 X5`, 'below the plane'],
    [`${start}M06 T2`, 'turning'],
    [`${start}M05\nT2 M06`, 'old length'],
  ])('refuses %s', (text, says) => {
    expect(() => run(text, { plane: 50 })).toThrow(says);
  });
});

describe('comments', () => {
  const yes = 'Yes: The plate goes together; least metal between cuts 0.300 in (H10 and C2).';

  test('what is too long for one line goes on in the next, and no name or number is cut in two', () => {
    expect(comment('VERDICT', yes)).toBe(
      '(VERDICT YES THE PLATE GOES TOGETHER LEAST METAL BETWEEN CUTS 0.300 IN)\n(VERDICT H10 AND C2.)',
    );
  });

  test('a note on some of the cuts of a tool stands at those', () => {
    const table = tableOf();
    const [text = ''] = programs(table).map((p) => p.text);
    const tools = text.split('\n').filter((l) => l.startsWith('(TOOL') && l.includes('COUNTERSINK'));
    expect(tools).toEqual([expect.not.stringContaining('DIA')]);
    for (const r of table.rows.filter((q) => q.op === 'chamfer' && q.side === 'B'))
      expect(text).toContain(`(HOLE ${r.hole} - TO DIA ${Number((r.note ?? '').replace(/[^0-9.]/g, ''))} MM)`);
  });
});

describe('names are inert', () => {
  test.each(['x) G00 Z-50 (', 'a\nG00 Z-50', 'MSG, hello', '%', '½ ⌀ 10 × 90°', 'Ünïcode; ; M30', 'x'.repeat(500)])(
    '%j',
    (name) => {
      const text = comment('HOLE', name);
      expect(text).toMatch(/^\(HOLE[A-Z0-9 .+/-]*\)$/);
      expect(text.length).toBeLessThan(80);
      const table = tableOf();
      const named = {
        ...table,
        origin: name,
        rows: table.rows.map((r) => ({ ...r, hole: `${name}${r.hole}`, tool: `${name}${r.tool}` })),
      };
      const plain = programs(table).map((q) => run(q.text).drilled);
      expect(programs(named, { name }).map((q) => run(q.text).drilled)).toEqual(plain);
    },
  );
});
