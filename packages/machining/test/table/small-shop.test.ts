import { DEGREE } from '@fayplate/core';
import type { Job } from '@fayplate/job';
import type { Plate } from '@fayplate/plate';
import { describe, expect, test } from 'vitest';
import { inSetting, iso6983, machinistTable, settingTag, tableCsv, tableReport } from '../../src/index.js';
import { rotary } from '../../src/byhand/rotary.js';
import { hole, simple, withMachine } from '../fixture.js';
import { run } from '../program/interpreter.js';

const made = (p: Plate, ofJob: Job) => {
  const t = machinistTable(p, ofJob);
  if (!t.ok) throw new Error(t.faults.join('\n'));
  return t.table;
};

/** Six holes 160 by 60, the middle two within reach of both settings of a table that travels 100 by 80. */
const six = simple(
  [-80, 0, 80].flatMap((x, i) => [hole(`H${2 * i + 1}`, x, 30), hole(`H${2 * i + 2}`, x, -30)]),
  { material: { name: 'aluminium', density: 2700 } },
);

describe('a plate beyond the travel', () => {
  const t = made(six, withMachine({ travel: { x: 100, y: 80 } }));

  test('is cut in two settings of its side, each with its own cuts, that go nowhere else', () => {
    expect(t.setups.map((s) => [s.side, s.setting])).toEqual([
      ['B', 1],
      ['B', 2],
    ]);
    const holes = t.setups.map((s) =>
      [
        ...new Set(
          inSetting(t, s)
            .rows.filter((r) => r.op !== 'face')
            .map((r) => r.hole),
        ),
      ].sort(),
    );
    expect(holes).toEqual([
      ['H1', 'H2', 'H3', 'H4'],
      ['H5', 'H6'],
    ]);
    for (const s of t.setups) {
      const xs = inSetting(t, s)
        .rows.filter((r) => r.op !== 'face')
        .map((r) => r.set.x);
      expect(Math.max(...xs) - Math.min(...xs)).toBeLessThanOrEqual(100);
    }
    expect(tableCsv(t)).toMatch(/,B setting 2,H5,/);
  });

  test('the second is set by two holes that the first has drilled, where they stood', () => {
    expect(t.setups[1]?.says).toMatch(
      /over H3 with an indicator and set it to X 0\.000, Y 30\.000; turn the plate until H4 stands at X 0\.000, Y −30\.000/,
    );
    expect(JSON.stringify(tableReport(t))).toMatch(/Side B uppermost, setting 2 of 2/);
  });

  test('a program for each, that drills its own holes alone', () => {
    const programs = iso6983(six, t);
    if (!programs.ok) throw new Error(programs.faults.join());
    expect(programs.programs.map((p) => p.name)).toEqual(t.setups.map(settingTag));
    const [one, two] = programs.programs.map((p) => new Set(run(p.text).drilled.map((d) => d.x)));
    expect([...(one ?? [])].sort((a, b) => a - b)).toEqual([-80, 0]);
    expect([...(two ?? [])]).toEqual([80]);
    expect(programs.programs[1]?.text).toMatch(/SETTING 2 OF 2/);
  });

  test('one that a quarter turn brings within reach lies so: x and y of every place change over', () => {
    const turned = made(six, withMachine({ travel: { x: 80, y: 170 } }));
    expect(turned.setups).toHaveLength(1);
    const at = (id: string) => turned.rows.find((r) => r.hole === id)?.set;
    // (−80, 30) a quarter anticlockwise is (−30, −80).
    expect(at('H1')).toEqual({ x: expect.closeTo(-30, 9), y: expect.closeTo(-80, 9) });
    expect(turned.blank.height).toBeGreaterThan(turned.blank.width);
    expect(turned.notes.join(' ')).toMatch(/turned by a quarter/);
  });

  test('one that the table reaches is cut as ever', () =>
    expect(made(six, withMachine({ travel: { x: 400, y: 400 } })).setups.map((s) => s.setting)).toEqual([undefined]));
});

describe('tools on hand', () => {
  const drill = (mm: number) => ({ name: `${mm} mm`, diameter: mm });
  const notes = (p: Plate, machine: Parameters<typeof withMachine>[0]): string =>
    made(p, withMachine(machine)).notes.join(' ');

  // By hand: a bolt of 8 in 9 has 1 mm, in 9.5 it has 1.5: half of the half is what a part may lie off the more.
  test('the nearest drill that serves is the next larger, and costs its clearance', () => {
    const p = simple([hole('H1', 10, 0, { drill: '9 mm' }), hole('H2', -10, 0, { drill: '9 mm' })]);
    expect(notes(p, { drills: [drill(3), drill(8.8), drill(9.5), drill(12)] })).toMatch(
      /for H1 and H2 the nearest that serves is 9\.5 mm, 0\.50 mm larger: 1\.50 mm of clearance in place of 1\.00 mm, so that a part may lie 0\.25 mm farther off/,
    );
    expect(notes(p, { drills: [drill(9)] })).not.toMatch(/not among your drills/);
  });

  // M10 × 1.5 drilled 8.5: (10 − 8.5) / (1.0825 · 1.5) = 92 %; 8.8 leaves 74 %, 9.4 only 37 %.
  test('for a tapped hole it is the one that leaves a thread', () => {
    const m10 = { name: 'M10', major: 10, pitch: 1.5, depth: null };
    const p = simple([hole('H1', 10, 0, { as: 'tapped', diameter: 8.5, drill: '8.5 mm', thread: m10 })]);
    expect(notes(p, { drills: [drill(3), drill(8.8), drill(9.4)] })).toMatch(
      /for H1 8\.8 mm serves, and leaves 74 % of a full thread where 92 % was meant/,
    );
    expect(notes(p, { drills: [drill(3), drill(9.4)] })).toMatch(
      /none on hand leaves a thread for M10: 9\.4 mm would leave 37 %/,
    );
    expect(notes(p, { taps: ['M8', 'M12'] })).toMatch(
      /A tap for M10 \(H1\) is not among yours: get one, or fasten by M8, the nearest/,
    );
    expect(notes(p, { taps: ['M10 x 1.5'] })).not.toMatch(/A tap for/);
  });

  test('a vice holds the blank, or does not open so far', () => {
    // Blank 206 by 106.
    expect(notes(six, { vice: { opens: 120, jaws: 100 } })).toMatch(/holds the blank from front to back/);
    expect(notes(six, { vice: { opens: 90, jaws: null } })).toMatch(
      /The vice opens 90 mm and the blank is 106 mm across: clamp it to the table/,
    );
  });

  // By hand: 60° and 119.97° to the nearest five minutes are 60° 00′ and 119° 55′ or 120° 00′: 0.03° off at 50 mm is
  // 0.026 mm.
  test('a rotary table gives each hole its angle from the first, to its division', () => {
    const at = (deg: number) => ({ x: 50 * Math.cos(deg * DEGREE), y: 50 * Math.sin(deg * DEGREE) });
    const p = simple([0, 60, 119.97].map((a, i) => hole(`H${i + 1}`, at(a).x, at(a).y)));
    const r = rotary(p, DEGREE / 12, { x: 0, y: 0 }, 'pump');
    expect(r?.holes.map((h) => h.set / DEGREE)).toEqual([0, expect.closeTo(60, 9), expect.closeTo(120, 9)]);
    expect(r?.worst).toBeCloseTo(50 * 0.03 * DEGREE, 9);
    const t = made(p, withMachine({ rotaryTable: DEGREE / 12 }));
    expect(JSON.stringify(tableReport(t))).toMatch(/Rotary table of 0° 05′ a division/);
  });
});
