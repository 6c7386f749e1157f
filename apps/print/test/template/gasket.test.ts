import { circlePath } from '@fayplate/core';
import { describe, expect, test } from 'vitest';
import { carry } from '../../src/geometry/affine.js';
import { type Gasket, gasketTemplate } from '../../src/index.js';
import { punchFor } from '../../src/template/gasket.js';
import { gaskets, printed } from '../jobs.js';
import { input } from '../jobs.js';
import { options } from '../plates.js';
import { crossAt } from '../measure.js';
import { raster } from '../raster.js';

const round = (face: string, radius: number, bore: number): Gasket => ({ face, outline: circlePath({ x: 3, y: 4 }, radius), holes: [], bore: { x: 3, y: 4, diameter: bore } });

describe('gaskets', () => {
  test('the smallest punch that is no smaller than the eased hole', () => {
    const punches = [8, 10, 11, 12].map((d) => ({ name: `${d} mm`, diameter: d }));
    expect(punchFor(10.8, punches)?.name).toBe('11 mm');
    expect(punchFor(10.02, punches)?.name).toBe('10 mm');
    expect(punchFor(14, punches)).toBeNull();
    expect(punchFor(6, punches)).toBeNull();
  });

  test('a small gasket is cut from what falls out of a large one; two large ones lie side by side', () => {
    const nested = gasketTemplate([round('small', 40, 20), round('large', 100, 110)], 'B', null, options.speech);
    expect(nested.box.right - nested.box.left).toBeCloseTo(200, 9);
    const beside = gasketTemplate([round('one', 60, 20), round('two', 100, 90)], 'B', null, options.speech);
    expect(beside.box.right - beside.box.left).toBeCloseTo(200 + 120 + 6, 9);
  });

  test('each gasket’s holes lie where its own matrix says, on every sheet', async () => {
    const out = await printed({ what: 'gasket' });
    let seen = 0;
    for (const page of out.json.pages.filter((p) => p.kind === 'tile')) {
      const image = await raster(out.bytes, page.page - 1, 600);
      for (const gasket of gaskets) {
        const toPage = page.parts?.find((p) => p.name === gasket.face)?.to_page;
        if (toPage === undefined) throw new Error('a matrix for every part');
        for (const h of gasket.holes.filter((q) => page.holes?.includes(q.id))) {
          const at = carry(toPage, h);
          const [x, y] = crossAt(image, [at.x, at.y], 1, 4);
          expect(Math.hypot(x - at.x, y - at.y)).toBeLessThan(0.02);
          seen++;
        }
      }
    }
    expect(seen).toBe(11);
  });

  test('labels say the punch; where none fits, that it is cut by hand', () => {
    const words = gasketTemplate(input.gaskets, 'B', [{ name: '11 mm', diameter: 11 }], options.speech).labels.map((l) => l.lines[1]);
    expect(words).toContain('punch 11 mm');
    expect(gasketTemplate(input.gaskets, 'B', [], options.speech).labels[0]?.lines[1]).toBe('⌀10.8: no punch fits, cut by hand');
  });
});
