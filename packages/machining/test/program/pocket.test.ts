import { type Point, distance } from '@fayplate/core';
import { type Plate, type PlateBore, biteOf, bitten, borePath, withinBore } from '@fayplate/plate';
import { describe, expect, test } from 'vitest';
import { iso6983, machinistTable } from '../../src/index.js';
import { hole, job, simple, withMachine } from '../fixture.js';
import { type Milled, run } from './interpreter.js';

const aluminium = { name: 'aluminium', density: 2700 };

const bore = (box: NonNullable<PlateBore['box']>, more: Partial<PlateBore>): PlateBore => ({
  id: 'C1',
  kind: 'relief',
  feature: null,
  part: null,
  x: 20,
  y: -10,
  diameter: box.width,
  box,
  limits: null,
  side: 'B',
  depth: 6,
  ...more,
});

/** The plate, its table, and where the program takes a cutter, in the plate's own frame. */
const cutOf = (b: PlateBore, outline?: Plate['outline']['path']) => {
  const p = simple([hole('H1', -60, 0)], { bores: [b], material: aluminium });
  const plate = outline === undefined ? p : { ...p, outline: { ...p.outline, path: outline } };
  const made = machinistTable(plate, job);
  if (!made.ok) throw new Error(made.faults.join('\n'));
  const programs = iso6983(plate, made.table);
  if (!programs.ok) throw new Error(programs.faults.join('\n'));
  const own = programs.programs.find((q) => /pocket|notch/.test(q.name));
  if (own === undefined) throw new Error('no program of its own');
  const rows = made.table.rows.filter((r) => r.hole === 'C1' && r.op === 'mill');
  const { milled } = run(own.text);
  // The table's axes lie as the drawing's, with the origin at the first face's centre.
  const home = (q: Point): Point => ({ x: own.side === 'A' ? -q.x : q.x, y: q.y });
  return { own, rows, milled, home, cutter: rows[0]?.toolDiameter ?? 0, table: made.table };
};

/** Places along a move, by a hundredth of its length. */
const along = ({ from, to, centre }: Milled): readonly Point[] =>
  Array.from({ length: 101 }, (_, k) => {
    const t = k / 100;
    if (centre === null) return { x: from.x + (to.x - from.x) * t, y: from.y + (to.y - from.y) * t };
    const r = distance(from, centre);
    const a = Math.atan2(from.y - centre.y, from.x - centre.x);
    const turn = (Math.atan2(to.y - centre.y, to.x - centre.x) - a + 2 * Math.PI) % (2 * Math.PI);
    return { x: centre.x + r * Math.cos(a + turn * t), y: centre.y + r * Math.sin(a + turn * t) };
  });

const cases: readonly (readonly [string, PlateBore])[] = [
  ['a pocket', bore({ length: 40, width: 24, corner: 4, angle: 0.4, behind: 20 }, {})],
  ['a pocket on side A', bore({ length: 40, width: 24, corner: 4, angle: 0.4, behind: 20 }, { side: 'A' })],
  ['one with round ends', bore({ length: 30, width: 9, corner: 4.5, angle: -1, behind: 15 }, {})],
  ['a window', bore({ length: 30, width: 30, corner: 5, angle: 0, behind: 15 }, { side: 'through', depth: null })],
];

describe('a pocket with straight sides', () => {
  test.each(cases)('%s is cleared to its walls and no farther, to its depth', (_, b) => {
    const { milled, home, cutter, own } = cutOf(b);
    const low = Math.min(...milled.map((m) => m.to.z));
    expect(low).toBeCloseTo(b.depth === null ? -21 : -6, 6);
    const path = milled
      .filter((m) => m.to.z < low + 1e-6 && m.from.z < low + 1e-6)
      .flatMap(along)
      .map(home);
    // The cutter's edge never passes the wall, and it touches it.
    const room = path.map((q) => withinBore(q, b) - cutter / 2);
    expect(Math.min(...room)).toBeGreaterThan(-2e-3);
    expect(Math.min(...room)).toBeLessThan(2e-3);
    // No place of the floor is left standing.
    const { length, width, angle } = b.box ?? { length: 0, width: 0, angle: 0 };
    for (let u = -length / 2; u <= length / 2; u += 0.5)
      for (let v = -width / 2; v <= width / 2; v += 0.5) {
        const q = {
          x: b.x + u * Math.cos(angle) - v * Math.sin(angle),
          y: b.y + u * Math.sin(angle) + v * Math.cos(angle),
        };
        if (withinBore(q, b) < 0.02) continue;
        const near = Math.min(...path.map((s) => distance(s, q)));
        expect(near, `${u.toFixed(1)} ${v.toFixed(1)}`).toBeLessThan(cutter / 2 + 0.02);
      }
    expect(own.text).toMatch(/\(POCKET/);
  });

  test('is milled with what its corners let in, never as wide as the whole; one that goes through is drilled first', () => {
    expect(cutOf(cases[0]![1]).rows.map((r) => [r.tool, r.note])).toEqual([
      ...Array.from({ length: 4 }, () => ['end mill 8 mm', 'corner']),
      ['end mill 8 mm', 'to size, side by side, to clear only'],
    ]);
    expect(cutOf(cases[2]![1]).rows[0]?.tool).toBe('end mill 8 mm');
    const window = cutOf(cases[3]![1])
      .table.rows.filter((r) => r.hole === 'C1')
      .map((r) => r.op);
    expect(window.slice(0, 2)).toEqual(['spot', 'pilot']);
    expect(window).toContain('drill');
    expect(
      cutOf(cases[0]![1])
        .table.rows.filter((r) => r.hole === 'C1')
        .every((r) => r.op === 'mill'),
    ).toBe(true);
  });
});

test('a notch is entered from outside the outline, and cut to its inner end', () => {
  const b = bore(
    { length: 60, width: 16, corner: 8, angle: Math.PI / 2, behind: 8, notch: true },
    { y: 30, side: 'through', depth: null },
  );
  const bite = biteOf(simple([]).outline.path, borePath(b));
  if (typeof bite === 'number') throw new Error('no bite');
  const { milled, own, cutter } = cutOf(b, bitten(bite));
  expect(own.name).toBe('side-b-notch-c1');
  const plunge = milled.find((m) => m.to.z < -1);
  expect(plunge?.to.y).toBeGreaterThan(50 + cutter / 2);
  expect(Math.min(...milled.flatMap(along).map((p) => p.y))).toBeCloseTo(22 + cutter / 2, 3);
});

test('the end mill that cuts the outline goes past a notch that has corners it could not reach', () => {
  const b = bore(
    { length: 60, width: 16, corner: 3, angle: Math.PI / 2, behind: 8, notch: true },
    { y: 30, side: 'through', depth: null },
  );
  const p = simple([hole('H1', -60, 0)], { bores: [b], material: aluminium });
  const whole = p.outline.path;
  const bite = biteOf(whole, borePath(b));
  if (typeof bite === 'number') throw new Error('no bite');
  const contourWith = (outline: object) => {
    const made = machinistTable(
      { ...p, outline: { ...p.outline, ...outline } },
      withMachine({ outline: { cutter: 10 } }),
    );
    if (!made.ok) throw new Error(made.faults.join('\n'));
    return made.table.contour;
  };
  expect(contourWith({ path: bitten(bite), whole })?.ok).toBe(true);
  expect(contourWith({ path: bitten(bite) })?.ok).toBe(false);
});
