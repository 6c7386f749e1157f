import type { PrinterScale } from '@fayplate/drawing';
import { beforeAll, describe, expect, test } from 'vitest';
import { type Affine, carry, chain, inverse } from '../src/geometry/affine.js';
import { type PageJson, type Printed } from '../src/index.js';
import { laidAcross, printedBy } from '../src/printer/profile.js';
import { printed } from './jobs.js';
import { crossAt } from './measure.js';
import { pumpPlate } from './plates.js';
import { raster } from './raster.js';
import { bare, read } from './pdf/reader.js';

const profile: PrinterScale = {
  name: 'workshop laser',
  wide: 0.9953,
  high: 1.0018,
  skew: 0.002,
  plusMinus: { wide: 0.0012, high: 0.0008, skew: 0.001 },
  date: '2024-03-01',
  paper: 'A4',
};

const distances = (m: Affine, ids: readonly string[]): readonly number[] => {
  const at = pumpPlate.holes.filter((h) => ids.includes(h.id)).map((h) => carry(m, h));
  return at.flatMap((p, i) => at.slice(i + 1).map((q) => Math.hypot(p.x - q.x, p.y - q.y)));
};

const tiles = (p: Printed): readonly PageJson[] => p.json.pages.filter((q) => q.kind === 'tile');

describe('a sheet laid across', () => {
  test('has the printer turned with it: the same printed page, only its axes named the other way', () => {
    // A quarter turn of the page, the printing, and the turn back: what the laid-across profile says in one.
    const turn: Affine = [0, 1, -1, 0, 0, 0];
    const want = chain(chain(turn, printedBy(profile)), inverse(turn));
    const got = printedBy(laidAcross(profile));
    const distance = (m: Affine, x: number, y: number): number => {
      const p = carry(m, { x, y });
      return Math.hypot(p.x, p.y);
    };
    for (const [x, y] of [
      [1, 0],
      [0, 1],
      [1, 1],
      [1, -1],
      [3, 2],
    ] as const)
      expect(distance(got, x, y)).toBeCloseTo(distance(want, x, y), 12);
  });

  test('with a profile sheets stay upright, and landscape is only taken when it is asked for', async () => {
    const any = await printed({ printer: profile });
    expect(any.json.paper.width).toBeLessThan(any.json.paper.height);
    const across = await printed({ printer: profile, orientation: 'landscape' });
    expect(across.json.scale).toEqual({
      wide: profile.high,
      high: profile.wide,
      skew: expect.closeTo((-profile.skew * 180) / Math.PI, 9),
    });
    const other = await printed({ printer: { ...profile, paper: 'A3' } });
    expect(other.warnings.join()).toMatch(/was measured on A3, not on A4/);
  });

  test('margins are kept wide enough for a correction that makes the page larger', async () => {
    const small = { ...profile, wide: 0.975, high: 0.975, skew: 0 };
    const out = await printed({ printer: small, margin: 0 });
    for (const page of out.json.pages) {
      for (const r of page.rulers ?? [])
        for (const [x, y] of [r.from, r.to]) expect(Math.min(x, y, 210 - x, 297 - y)).toBeGreaterThan(0);
    }
  });
});

describe('a print corrected for its printer', () => {
  let all: Printed;
  beforeAll(async () => {
    all = await printed({ printer: profile });
  });

  test('put through that printer, every distance comes out as on the plate', () => {
    for (const page of tiles(all)) {
      const toPage = page.to_page ?? [1, 0, 0, 1, 0, 0];
      const onPaper = chain(toPage, printedBy(profile));
      const ids = page.holes ?? [];
      const want = distances([1, 0, 0, 1, 0, 0], ids);
      for (const [i, d] of distances(onPaper, ids).entries()) expect(d).toBeCloseTo(want[i] ?? Number.NaN, 9);
      expect(Math.max(...distances(toPage, ids).map((d, i) => Math.abs(d - (want[i] ?? 0))))).toBeGreaterThan(0.1);
      for (const r of page.rulers ?? []) {
        const [from, to] = [r.from, r.to].map(([x, y]) => carry(printedBy(profile), { x, y }));
        expect(Math.hypot((to?.x ?? 0) - (from?.x ?? 0), (to?.y ?? 0) - (from?.y ?? 0))).toBeCloseTo(r.length, 9);
      }
    }
  });

  test('the pixels are where the JSON says', async () => {
    const [page] = tiles(all);
    if (page?.to_page === undefined) throw new Error('no tile');
    const image = await raster(all.bytes, page.page - 1, 600);
    for (const id of (page.holes ?? []).filter((h) => ['H6', 'H7'].includes(h))) {
      const hole = pumpPlate.holes.find((h) => h.id === id);
      if (hole === undefined) throw new Error(id);
      const at = carry(page.to_page, hole);
      const r = Math.max(hole.diameter, hole.sink?.diameter ?? 0) / 2;
      const [x, y] = crossAt(image, [at.x, at.y], r + 1.5, r + 2.8);
      expect(Math.hypot(x - at.x, y - at.y)).toBeLessThan(0.02);
    }
  });

  test('the sheets say so, and how far a hole can still be off', async () => {
    const { pages } = await read(all.bytes);
    for (const page of pages)
      expect(page.text).toContain(bare('Corrected for workshop laser: 0.9953 wide, 1.0018 high, skew 0.115°'));
    expect(pages[0]?.text).toContain(bare('(measured 2024-03-01 on A4)'));
    expect(pages[0]?.text).toMatch(/canstillbeoffby±0\.\d\dmm/);
    expect(all.json.scale).toEqual({ wide: 0.9953, high: 1.0018, skew: expect.closeTo(0.1146, 4) });
    expect(all.json.still_off?.plus_minus).toBeGreaterThan(0.2);
  });
});
