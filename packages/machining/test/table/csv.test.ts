import { describe, expect, test } from 'vitest';
import { type MachinistTable, csvText, machinistTable, tableCsv, tableJson, tableReport } from '../../src/index.js';
import { job, plate, withMachine } from '../fixture.js';

const table = (unit: 'mm' | 'in' = 'mm', ofJob = job, origin: string | null = null): MachinistTable => {
  const t = machinistTable(plate, ofJob, { unit, origin });
  if (!t.ok) throw new Error(t.faults.join());
  return t.table;
};

/** RFC 4180, written apart: cells may be quoted, a doubled quote is a quote. */
const parse = (text: string): readonly (readonly string[])[] => {
  const rows: string[][] = [[]];
  let cell = '';
  let quoted = false;
  for (let i = 0; i < text.length; i++) {
    const c = text[i]!;
    if (quoted && c === '"' && text[i + 1] === '"') [cell, i] = [`${cell}"`, i + 1];
    else if (c === '"') quoted = !quoted;
    else if (!quoted && c === ',') [cell] = [(rows.at(-1)!.push(cell), '')];
    else if (!quoted && c === '\r' && text[i + 1] === '\n') {
      rows.at(-1)!.push(cell);
      rows.push([]);
      [cell, i] = ['', i + 1];
    } else cell += c;
  }
  return rows.slice(0, -1);
};

describe('CSV', () => {
  test.each(['mm', 'in'] as const)('%s: every cell comes back, and steps add up to places', (unit) => {
    const t = table(unit);
    const [head, ...rows] = parse(tableCsv(t));
    expect(head).toContain(`x ${unit}`);
    expect(rows).toHaveLength(t.rows.length);
    const per = unit === 'in' ? 25.4 : 1;
    for (const side of ['A', 'B']) {
      let [x, y] = [0, 0];
      for (const r of rows.filter((r) => r[1] === side)) {
        x += Number(r[7]);
        y += Number(r[8]);
        expect(Number(r[5])).toBeCloseTo(x, 3);
        expect(Number(r[6])).toBeCloseTo(y, 3);
        expect(Number(r[9])).toBeCloseTo(Math.hypot(x, y), 3);
        expect(Number(r[5]) * per).toBeCloseTo(t.rows[Number(r[0]) - 1]!.set.x, 9);
      }
    }
  });

  // Text that spreadsheets take for a formula; common practice is a leading apostrophe.
  test.each(['=1+1', '+1', '-1', '@SUM(A1)', '\t=1', ' =1', '=cmd|"/c calc"!A1', 'plain', 'a,b', 'say "so"'])(
    '%j is text wherever it is opened',
    (name) => {
      const t = table();
      const named = { ...t, rows: t.rows.map((r) => ({ ...r, hole: name })) };
      for (const r of parse(tableCsv(named)).slice(1)) {
        expect(r).toHaveLength(20);
        expect(r[2]).not.toMatch(/^\s*[=+\-@]/);
        expect(r[2]!.replace(/^'/, '')).toBe(name);
      }
      expect(csvText('plain')).toBe('plain');
    },
  );
});

describe('words', () => {
  const textOf = (t: MachinistTable): string => JSON.stringify(tableReport(t));

  test('cautions once; a plate whose checks fail, or a clamp in the way, is told first', () => {
    const report = tableReport(table());
    expect(tableReport({ ...table(), plateOk: false })[0]).toMatchObject({ kind: 'verdict', ok: false });
    expect(
      tableReport(table('mm', withMachine({ clamps: [{ from: { x: 85, y: 160 }, to: { x: 95, y: 180 } }] })))[0],
    ).toMatchObject({ kind: 'verdict', ok: false });
    expect(report.some((b) => b.kind === 'verdict')).toBe(false);
    expect(report.filter((b) => b.kind === 'caution')).toHaveLength(1);
  });

  test('from a corner the edge finder’s tip is named and not added', () => {
    const plain = table('mm', job, 'lower left corner');
    const tip = table('mm', withMachine({ tip: 5 }), 'lower left corner');
    expect(tip.rows).toEqual(plain.rows);
    expect(textOf(tip)).toMatch(/left edge set X to −2\.500/);
    expect(textOf(plain)).toMatch(/minus half its tip/);
    // Zero at the spigot is found by the same edges, 93 mm off: half of 180 and 3 mm left round it.
    expect(textOf(table())).toMatch(
      /93\.000 mm from the left edge.*touches the left edge set X to −93\.000 less half its tip/,
    );
  });

  test('sixty-fourths stand beside a place where both are exact, and only there', () => {
    const whole = {
      ...table('in'),
      rows: table('in').rows.map((r) => ({ ...r, set: { x: 25.4 * 2.5, y: (25.4 * 17) / 64 } })),
    };
    expect(textOf(whole)).toContain('2 1/2, 17/64');
    expect(textOf(table('in'))).not.toContain('as 64ths');
  });

  test('every table has a text for every column', () => {
    for (const b of tableReport(
      table('in', withMachine({ screwPitch: 2.54, dividingHead: { ratio: 40, circles: [15, 18, 49] } })),
    )) {
      for (const row of b.kind === 'table' ? b.rows : [])
        expect(row).toHaveLength(b.kind === 'table' ? b.columns.length : 0);
    }
  });

  test('JSON keeps the names that programs read', () => {
    const json = tableJson(table()) as { rows: readonly object[]; checks: readonly object[]; travel: object };
    expect(Object.keys(json)).toEqual(expect.arrayContaining(['origin', 'axes', 'unit', 'rows', 'checks', 'travel']));
    expect(Object.keys(json.rows[0]!)).toEqual(expect.arrayContaining(['n', 'hole', 'x', 'y', 'tool', 'op', 'depth']));
    expect(Object.keys(json.checks[0]!)).toEqual(expect.arrayContaining(['between', 'centres', 'over_pins', 'gap']));
    expect(Object.keys(json.travel)).toEqual(['table_order', 'as_listed']);
    expect(JSON.parse(JSON.stringify(json))).toEqual(json);
  });
});
