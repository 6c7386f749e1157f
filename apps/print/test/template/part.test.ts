import { beforeAll, describe, expect, test } from 'vitest';
import { carry } from '../../src/geometry/affine.js';
import { type PartFeature, partTemplate, printTemplate } from '../../src/index.js';
import type { PrintedTemplate } from '../../src/types.js';
import { letters } from '../fonts.js';
import { crossAt } from '../measure.js';
import { options } from '../plates.js';
import { crop } from '../raster.js';

/** Every mark is within this of where the readings say, mm. */
const TRUE = 0.02;
const feature = (id: string, x: number, y: number, diameter: number | null, large = false): PartFeature => ({
  id,
  x,
  y,
  diameter,
  plusMinus: 0.05,
  large,
});
const features = [
  feature('spigot', 0, 0, 60, true),
  feature('P1', 0, 47.625, 10),
  feature('P2', 41.2, -23.8, 10),
  feature('P3', -41.3, -23.7, 12),
  feature('P4', -30, 38, null),
];

describe('a part by itself, at true scale', () => {
  let printed: PrintedTemplate;
  beforeAll(async () => {
    const template = partTemplate('pump', 'seen from outside', features, options.speech);
    const out = await printTemplate('Heron Lane', template, { ...options, lettering: letters, paper: 'A4' });
    if (!out.ok) throw new Error(out.faults.join());
    printed = out;
  });

  test('every feature stands where its readings put it, to 0.02 mm at 1200 dpi, and the paper is not mirrored', async () => {
    const tile = printed.json.pages.find((p) => p.kind === 'tile');
    const toPage = tile?.to_page;
    if (tile === undefined || toPage === undefined) throw new Error('no sheet at true scale');
    // The sheet shows the part as it is looked at: x to the right, y up, nothing turned.
    expect([toPage[0], toPage[1], toPage[2], toPage[3]]).toEqual([1, 0, 0, 1]);
    expect([...(tile.holes ?? [])].sort()).toEqual(['P1', 'P2', 'P3', 'P4', 'spigot']);
    for (const f of features.filter((g) => g.diameter !== null && !g.large)) {
      const at = carry(toPage, f);
      const [x, y] = crossAt(
        await crop(printed.bytes, tile.page - 1, [at.x, at.y]),
        [at.x, at.y],
        1.5,
        (f.diameter ?? 0) / 2 - 0.5,
      );
      expect(Math.hypot(x - at.x, y - at.y)).toBeLessThan(TRUE);
    }
  });

  test('what nobody has measured carries a cross and no circle', () => {
    const { outlines, list } = partTemplate('pump', 'seen from outside', features, options.speech);
    // The edge of the paper, and the rims of the four that have a diameter.
    expect(outlines).toHaveLength(5);
    expect(list.rows.find((r) => r[0] === 'P4')?.[3]).toBe('');
    expect(list.rows.find((r) => r[0] === 'P3')?.[3]).not.toBe('');
  });
});
