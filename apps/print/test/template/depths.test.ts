import { expect, test } from 'vitest';
import { type StopDepth, depthTemplate, printTemplate } from '../../src/index.js';
import { carry } from '../../src/geometry/affine.js';
import { letters } from '../fonts.js';
import { tickAt } from '../measure.js';
import { options } from '../plates.js';
import { crop } from '../raster.js';

const depths: readonly StopDepth[] = [3.5, 21.95, 22.5, 27.03, 12.7, 24.4].map((depth, k) => ({
  tool: `drill ${k + 5} mm`,
  op: 'drill',
  side: k % 2 === 0 ? 'A' : 'B',
  depth,
  holes: ['H1', 'H2', 'H3', 'H4', 'H5'],
}));

test('each strip is as long as its depth, to 0.02 mm at 1200 dpi', async () => {
  const template = depthTemplate(depths, options.speech, letters);
  const printed = await printTemplate('Heron Lane', template, { ...options, lettering: letters, paper: 'A4' });
  if (!printed.ok) throw new Error(printed.faults.join());
  const tile = printed.json.pages.find((p) => p.kind === 'tile');
  if (tile?.to_page === undefined) throw new Error('no sheet at true scale');
  for (const [k, { depth }] of depths.entries()) {
    const path = template.outlines[k];
    if (path === undefined) throw new Error('no strip');
    const top = carry(tile.to_page, { x: path.start.x, y: path.start.y });
    const image = await crop(printed.bytes, tile.page - 1, [top.x, top.y - depth / 2]);
    // Both ends looked at 4 to 8 mm in from the left edge, clear of the words.
    const upper = tickAt(image, [top.x, top.y], 'up', 1, 4, 8);
    const lower = tickAt(image, [top.x, top.y - depth], 'up', 1, 4, 8);
    expect(Math.abs(upper - lower - depth)).toBeLessThan(0.02);
  }
});

test('the list names every hole, and the words over a strip the first few', () => {
  const { list, shapes } = depthTemplate(depths, options.speech, letters);
  expect(list.rows[0]?.at(-1)).toBe('H1, H2, H3, H4, H5');
  const said = JSON.stringify(shapes);
  expect(said).toContain('H1, H2, H3');
  expect(said).not.toContain('H5');
});
