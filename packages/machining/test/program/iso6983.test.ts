import { describe, expect, test } from 'vitest';
import {
  type MachinistTable,
  type ProgramOptions,
  type TableOptions,
  type TableRow,
  iso6983,
  machinistTable,
} from '../../src/index.js';
import { comment } from '../../src/program/comment.js';
import { cycleWords } from '../../src/program/cycle.js';
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
const byHand = (r: TableRow): boolean => r.op === 'bore' || r.op === 'mill' || r.op === 'turn';
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
    for (const { side, text } of programs(table)) {
      const ran = run(text);
      const rows = table.rows.filter((r) => r.side === side);
      expect(ran.unit).toBe(table.unit);
      expect(ran.ended).toBe(true);
      const cut = rows.filter((r) => !byHand(r));
      expect(ran.drilled).toHaveLength(cut.length);
      for (const [i, r] of cut.entries()) {
        const d = ran.drilled[i]!;
        expect(Math.abs(d.x - r.set.x) + Math.abs(d.y - r.set.y)).toBeLessThan(1e-9);
        expect(Math.abs(d.bottom + r.depth)).toBeLessThanOrEqual(table.unit === 'in' ? 0.00127001 : 0.000501);
        expect(d.speed).toBe(r.speed);
        expect(Math.abs(d.feed - r.feed!)).toBeLessThanOrEqual(table.unit === 'in' ? 0.127001 : 0.500001);
        expect(d.turning).toBe(true);
      }
      const stops = rows.filter(byHand);
      const atHoles = ran.stops.filter((s) => stops.some((r) => r.set.x === s.x && r.set.y === s.y));
      expect(atHoles.length).toBeGreaterThanOrEqual(stops.length);
    }
  });

  test('no move across lower than the safe plane, one stop for every tool, spindle stopped at each change', () => {
    const table = tableOf();
    for (const { side, text } of programs(table)) {
      const ran = run(text);
      expect(ran.lowestTraverse).toBeCloseTo(25, 9);
      const tools = table.rows.filter((r) => r.side === side).map((r) => r.tool);
      expect(ran.toolChanges).toHaveLength(tools.filter((t, i) => t !== tools[i - 1]).length);
      expect(ran.stops.length).toBeGreaterThanOrEqual(ran.toolChanges.length);
    }
  });

  test('after every stop, where a person may have left the tool anywhere, it goes up before it goes across', () => {
    for (const { text } of programs(tableOf())) {
      const blocks = text.split('\n').filter((l) => l.startsWith('N'));
      const stops = blocks.flatMap((l, i) => (l.endsWith(' M00') ? [i] : []));
      expect(stops.length).toBeGreaterThan(0);
      for (const i of stops)
        expect(blocks.slice(i + 1).find((l) => / [XYZ]/.test(l))).toMatch(/^N\d+ (?:G80 )?G00 Z25\.000$/);
    }
  });

  test('what is reamed at assembly is left out, and said', () => {
    const spec = { as: 'new dowels', count: 2, diameter: 6 } as const;
    const ofJob = { ...job, plate: { locate: new Map([['motor', spec]]) } as unknown as NonNullable<typeof job.plate> };
    const p = simple([
      hole('H1', 30, 0, { as: 'dowel', diameter: 6 }),
      hole('H2', -30, 0, { as: 'dowel', diameter: 6, feature: 'pump.D1' }),
    ]);
    const [b] = programs(tableOf({}, ofJob, p), {}, p);
    const reamed = run(b!.text).drilled.filter((d) => d.cycle === 'G85');
    expect(reamed.map((d) => d.x)).toEqual([-30]);
    expect(b!.text).toMatch(/H1 IS REAMED AT ASSEMBLY/);
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
    expect(run(b!.text).lowestTraverse).toBeCloseTo(33, 9);
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
        const ran = run(q.text);
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

  test('the standard’s unit words, or those most milling controls want', () => {
    const [standard] = programs(tableOf());
    const [usual] = programs(tableOf(), { usualUnitWords: true });
    expect(standard!.text).toMatch(/ G71 /);
    expect(usual!.text).toMatch(/ G21 /);
    expect(usual!.text.replace('G21', 'G71')).toBe(standard!.text);
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
    const ran = run('n1 g20 g90 g0 z3\ng81 x3 y4 r0.2 z-1.1 f5\ng83 g90 x5 y6 r0.2 z-1.1 q0.21\nm30');
    expect(ran.drilled.map(({ x, y, bottom, cycle, peck }) => ({ x, y, bottom, cycle, peck }))).toEqual([
      { x: 3 * 25.4, y: 4 * 25.4, bottom: -1.1 * 25.4, cycle: 'G81', peck: null },
      { x: 5 * 25.4, y: 6 * 25.4, bottom: -1.1 * 25.4, cycle: 'G83', peck: 0.21 * 25.4 },
    ]);
  });

  test.each([
    ['G71 G90 G01 X5', 'G1'],
    ['G90 G00 X5', 'unit'],
    ['G71 G90 X5', 'no motion word'],
    ['HELLO', 'not a block'],
    ['G71 G90 G00 Z25\nG81 X1 Y1 Z-5 R30 F10', 'levels'],
    ['G71 G90 G00 Z25\nG81 X1 Y1 Z-5 R2', 'without'],
  ])('refuses %s', (text, says) => {
    expect(() => run(text)).toThrow(says);
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
        rows: table.rows.map((r) => ({ ...r, hole: name, tool: `${name}${r.tool}` })),
      };
      const plain = programs(table).map((q) => run(q.text).drilled);
      expect(programs(named, { name }).map((q) => run(q.text).drilled)).toEqual(plain);
    },
  );
});
