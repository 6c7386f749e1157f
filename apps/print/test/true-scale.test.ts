import { beforeAll, describe, expect, test } from 'vitest';
import type { PageJson, Printed } from '../src/index.js';
import { carry, inverse } from '../src/geometry/affine.js';
import { printed } from './jobs.js';
import { crossAt, tickAt } from './measure.js';
import { hasPoppler, popplerRaster } from './poppler.js';
import { pumpPlate } from './plates.js';
import { type Raster, crop, raster } from './raster.js';

/** Half of what the eye can tell with a glass: every mark is within this of where the plate says, mm. */
const TRUE = 0.02;

const tilesOf = (p: Printed): readonly PageJson[] => p.json.pages.filter((q) => q.kind === 'tile');

/** Plate places of round holes punched from this side. */
const places = new Map(pumpPlate.holes.filter((h) => h.slot === null).map((h) => [h.id, h]));

/** Where every hole has arms, a cross or the ticks of a ring: outside its largest circle, mm from its centre. */
const armBand = (id: string): readonly [number, number] => {
  const h = places.get(id);
  const r = Math.max(h?.diameter ?? 0, h?.sink?.diameter ?? 0) / 2;
  return [r + 1.5, r + 2.8];
};

const far = (a: readonly [number, number], b: { readonly x: number; readonly y: number }): number =>
  Math.hypot(a[0] - b.x, a[1] - b.y);

/** Worst miss of hole centres, ruler ends and marks on one page, mm. */
const missesOn = (
  image: Raster,
  page: PageJson,
  punched: readonly string[],
): { readonly holes: number; readonly rulers: number; readonly marks: number; readonly count: number } => {
  const toPage = page.to_page ?? [1, 0, 0, 1, 0, 0];
  const holes = (page.holes ?? [])
    .filter((id) => punched.includes(id))
    .map((id) => {
      const h = places.get(id);
      if (h === undefined) throw new Error(id);
      const at = carry(toPage, h);
      return far(crossAt(image, [at.x, at.y], ...armBand(id)), at);
    });
  const rulers = (page.rulers ?? []).map((r, i) => {
    const along = Math.abs(r.to[0] - r.from[0]) > Math.abs(r.to[1] - r.from[1]) ? 'across' : 'up';
    const side = (i % 2 === 0) === (along === 'across') ? 1 : -1;
    const length = tickAt(image, r.to, along, side) - tickAt(image, r.from, along, side);
    return Math.abs(length - r.length);
  });
  const marks = (page.marks ?? []).map((m) => far(crossAt(image, m.at, 0.3, 1.1), { x: m.at[0], y: m.at[1] }));
  return {
    holes: Math.max(0, ...holes),
    rulers: Math.max(0, ...rulers),
    marks: Math.max(0, ...marks),
    count: holes.length + rulers.length + marks.length,
  };
};

const fromB = pumpPlate.holes.filter((h) => h.slot === null && (h.depth === null || h.from === 'B')).map((h) => h.id);

const fromA = pumpPlate.holes.filter((h) => h.slot === null).map((h) => h.id);

describe('pages measured from their pixels at 600 dpi', () => {
  let all: Printed;
  beforeAll(async () => {
    all = await printed();
  });

  test('every hole centre, ruler end and mark is where the plate says, on every sheet', async () => {
    const found = await Promise.all(
      tilesOf(all).map(async (page) => missesOn(await raster(all.bytes, page.page - 1, 600), page, fromB)),
    );
    expect(found.reduce((n, f) => n + f.count, 0)).toBe(10 + 8 + 4);
    for (const f of found) expect(Math.max(f.holes, f.rulers, f.marks)).toBeLessThan(TRUE);
  });

  test.skipIf(!hasPoppler())(
    'a second renderer agrees: poppler, which moves strokes to whole pixels where it can',
    () => {
      for (const page of tilesOf(all)) {
        const f = missesOn(popplerRaster(all.bytes, page.page, 600, page.height), page, fromB);
        expect(Math.max(f.holes, f.rulers, f.marks)).toBeLessThan(TRUE);
      }
    },
  );

  test('the measuring does see a miss of 0.1 mm', async () => {
    const [page] = tilesOf(all);
    if (page?.to_page === undefined) throw new Error('no tile');
    const [a, b, c, d, e, f] = page.to_page;
    const image = await raster(all.bytes, page.page - 1, 600);
    expect(missesOn(image, { ...page, to_page: [a, b, c, d, e + 0.1, f] }, fromB).holes).toBeGreaterThan(0.08);
  });

  test('joined by their marks, sheets put every hole where the plate says', async () => {
    const [one, two] = tilesOf(all);
    if (one?.to_page === undefined || two?.to_page === undefined) throw new Error('two tiles wanted');
    const images = await Promise.all([one, two].map((p) => raster(all.bytes, p.page - 1, 600)));
    const seen = (i: number, p: PageJson) =>
      new Map((p.marks ?? []).map((m) => [m.id, crossAt(images[i] as Raster, m.at, 0.3, 1.1)]));
    const [first, second] = [seen(0, one), seen(1, two)];
    // The second sheet is laid on the first by both marks: shift and turn of the line through them.
    const ids = [...first.keys()].filter((id) => second.has(id));
    const pick = (m: ReadonlyMap<string, readonly [number, number]>, i: number) => m.get(ids[i] ?? '') ?? [0, 0];
    const turn = (m: ReadonlyMap<string, readonly [number, number]>): number =>
      Math.atan2(pick(m, 1)[1] - pick(m, 0)[1], pick(m, 1)[0] - pick(m, 0)[0]);
    const t = turn(first) - turn(second);
    const lay = ([x, y]: readonly [number, number]) => {
      const [px, py] = pick(second, 0);
      const [qx, qy] = pick(first, 0);
      return {
        x: qx + Math.cos(t) * (x - px) - Math.sin(t) * (y - py),
        y: qy + Math.sin(t) * (x - px) + Math.cos(t) * (y - py),
      };
    };
    expect(ids).toHaveLength(2);
    const back = inverse(one.to_page);
    for (const id of (two.holes ?? []).filter((h) => fromB.includes(h))) {
      const hole = places.get(id) ?? { x: 0, y: 0 };
      const at = carry(two.to_page, hole);
      const onPlate = carry(back, lay(crossAt(images[1] as Raster, [at.x, at.y], ...armBand(id))));
      expect(far([onPlate.x, onPlate.y], hole)).toBeLessThan(TRUE);
    }
  });
});

describe('crops at 1200 dpi', () => {
  test('side A, the mirror image, on Letter: holes, ruler ends and marks of every sheet', async () => {
    const all = await printed({ side: 'A', paper: 'Letter' });
    const misses: number[] = [];
    for (const page of tilesOf(all)) {
      expect(page.to_page?.[0]).toBe(-1);
      const look = (at: readonly [number, number]): Promise<Raster> => crop(all.bytes, page.page - 1, at);
      for (const id of (page.holes ?? []).filter((h) => places.has(h) && fromA.includes(h)).slice(0, 2)) {
        const at = carry(page.to_page ?? [1, 0, 0, 1, 0, 0], places.get(id) ?? { x: 0, y: 0 });
        misses.push(far(crossAt(await look([at.x, at.y]), [at.x, at.y], ...armBand(id)), at));
      }
      for (const [i, r] of (page.rulers ?? []).entries()) {
        const along = i < 2 ? 'across' : 'up';
        const side = (i % 2 === 0) === (along === 'across') ? 1 : -1;
        const [from, to] = [
          tickAt(await look(r.from), r.from, along, side),
          tickAt(await look(r.to), r.to, along, side),
        ];
        misses.push(Math.abs(to - from - r.length));
      }
      for (const m of page.marks ?? [])
        misses.push(far(crossAt(await look(m.at), m.at, 0.3, 1.1), { x: m.at[0], y: m.at[1] }));
    }
    expect(misses.length).toBe(2 * (2 + 4 + 2));
    expect(Math.max(...misses)).toBeLessThan(TRUE / 2);
  });
});
