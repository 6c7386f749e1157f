import { describe, expect, test } from 'vitest';
import { printCalibration } from '../src/index.js';
import { printed } from './jobs.js';
import { crossAt, tickAt } from './measure.js';
import { options } from './plates.js';
import { raster } from './raster.js';
import { bare, read } from './pdf/reader.js';

describe('one sheet again', () => {
  test('is the same sheet: same place, same holes, same pixels', async () => {
    const all = await printed();
    const one = await printed({ sheet: [1, 2] });
    expect(one.json.pages).toHaveLength(1);
    const { page: _all, ...whole } = all.json.pages[2] ?? { page: 0 };
    const { page: _one, ...again } = one.json.pages[0] ?? { page: 0 };
    expect(again).toEqual(whole);
    const [a, b] = await Promise.all([raster(all.bytes, 2, 100), raster(one.bytes, 0, 100)]);
    let differ = 0;
    for (let row = 0; row < a.height; row++)
      for (let column = 0; column < a.width; column++)
        if (Math.abs(a.dark(column, row) - b.dark(column, row)) > 0.01) differ++;
    expect(differ).toBe(0);
  });
});

describe('registration marks', () => {
  test('each number stands on two sheets or more, never twice in one place, and no two joins have the same spacing', async () => {
    const all = await printed({ paper: 'A5' });
    const tiles = all.json.pages.filter((p) => p.kind === 'tile');
    const seen = new Map<string, number>();
    for (const m of tiles.flatMap((t) => t.marks ?? [])) seen.set(m.id, (seen.get(m.id) ?? 0) + 1);
    for (const [id, times] of seen) expect([id, times]).toEqual([id, 2]);
    expect(new Set(seen.keys())).toEqual(new Set(Array.from({ length: seen.size }, (_, i) => `R${i + 1}`)));
    const gaps = tiles.flatMap((t, i) =>
      tiles.slice(i + 1).flatMap((u) => {
        const shared = (t.marks ?? []).filter((m) => (u.marks ?? []).some((n) => n.id === m.id));
        const [a, b] = shared;
        return a === undefined || b === undefined ? [] : [Math.hypot(a.at[0] - b.at[0], a.at[1] - b.at[1])];
      }),
    );
    const sorted = gaps.sort((p, q) => p - q);
    expect(sorted.length).toBeGreaterThan(4);
    // Two joins whose spacing agreed to within a millimetre could be laid on each other by mistake.
    for (const [i, g] of sorted.slice(1).entries()) expect(g - (sorted[i] ?? 0)).toBeGreaterThan(1);
  });
});

describe('the calibration sheet', () => {
  test('rulers and both diagonals are true to 0.02 mm, and the diagonals are equal', async () => {
    const out = await printCalibration('workshop laser', options);
    if (!out.ok) throw new Error(out.faults.join());
    const [page] = out.json.pages;
    const image = await raster(out.bytes, 0, 600);
    const lines = page?.rulers ?? [];
    expect(lines).toHaveLength(6);
    for (const [i, r] of lines.slice(0, 4).entries()) {
      const along = i < 2 ? 'across' : 'up';
      const side = (i % 2 === 0) === (along === 'across') ? 1 : -1;
      expect(Math.abs(tickAt(image, r.to, along, side) - tickAt(image, r.from, along, side) - r.length)).toBeLessThan(
        0.02,
      );
    }
    for (const r of lines.slice(4)) {
      const a = crossAt(image, r.from, 1.2, 3.5);
      const b = crossAt(image, r.to, 1.2, 3.5);
      expect(Math.abs(Math.hypot(a[0] - b[0], a[1] - b[1]) - r.length)).toBeLessThan(0.02);
    }
    expect(lines[4]?.length).toBeCloseTo(Math.hypot(page?.rectangle?.width ?? 0, page?.rectangle?.height ?? 0), 9);
    const { pages } = await read(out.bytes);
    expect(pages[0]?.text).toContain(bare('nominal 170 mm'));
  });
});
