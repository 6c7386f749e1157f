import { circlePath, flatten, signedArea } from '@fayplate/core';
import type { Face } from '@fayplate/job';
import { type Gasket, gasketEase, gasketsOf } from '@fayplate/plate';
import { describe, expect, test } from 'vitest';
import { carry } from '../../src/geometry/affine.js';
import { gasketTemplate } from '../../src/index.js';
import { punchFor } from '../../src/template/marks.js';
import { gaskets, input, printed } from '../jobs.js';
import { options } from '../plates.js';
import { crossAt } from '../measure.js';
import { raster } from '../raster.js';

const round = (face: string, radius: number, bore: number): Gasket => ({
  face,
  outline: circlePath({ x: 3, y: 4 }, radius),
  holes: [],
  bore: { x: 3, y: 4, diameter: bore },
});

describe('gaskets', () => {
  test(
    'holes are eased by the stated clearance over the largest ' +
      'fastener, the outline is the plate’s or follows the holes',
    () => {
      const [pump, motor] = gaskets();
      expect(pump?.holes.map((h) => h.diameter)).toEqual(Array.from({ length: 7 }, () => 10.8));
      expect(motor?.holes.map((h) => h.diameter)).toEqual(Array.from({ length: 4 }, () => 10.4));
      expect(pump?.outline).toBe(input.plate.outline.path);
      // Four holes on a 65 mm radius, land of one diameter about each: as far as 65 + 1.5 × 10.4.
      const reach = Math.max(
        ...flatten(motor?.outline ?? circlePath({ x: 0, y: 0 }, 1)).map((p) => Math.hypot(p.x, p.y)),
      );
      expect(reach).toBeCloseTo(65 + 1.5 * 10.4, 2);
    },
  );

  test('the sheet says which centres its holes have, of the faces that it is for', () => {
    const centres = [
      { face: 'pump', from: 'measured', differs: 0.094, undecided: null },
      { face: 'motor', from: 'laid out', differs: 0.022, undecided: null },
    ] as const;
    const [pump] = gaskets();
    const { blocks, facts } = gasketTemplate([pump!], 'B', null, options.speech, centres);
    const words = 'pump as measured (its layout up to 0.094 mm off)';
    expect(blocks.map((b) => b.lines.map((l) => l.text))).toEqual([[words]]);
    expect(facts).toContainEqual(['Centres', words]);
    expect(gasketTemplate(gaskets(), 'B', null, options.speech, centres).blocks[0]!.lines[1]!.text).toBe(
      'motor as laid out (measured up to 0.022 mm off)',
    );
  });

  test('outline like a part: round the places of its rim; what is missing is told', () => {
    const like = (rim: Face['rim']) =>
      gasketsOf({
        ...input,
        benches: new Map(),
        job: {
          gaskets: [{ face: 'pump', holeClearance: 1, bore: null, outline: { like: 'motor' } }],
          faces: [{ name: 'motor', rim } as Face],
        },
      });
    const square = like(
      [
        [-90, -90],
        [90, -90],
        [90, 90],
        [-90, 90],
      ].map(([x = 0, y = 0]) => ({ at: { x, y } })),
    );
    expect(square.ok && signedArea(square.gaskets[0]?.outline ?? circlePath({ x: 0, y: 0 }, 1))).toBeCloseTo(
      180 ** 2,
      6,
    );
    // No bore is stated: room for the largest cut on the pump's side.
    expect(square.ok && square.gaskets[0]?.bore?.diameter).toBe(90.05 + gasketEase);
    expect(like([])).toEqual({ ok: false, faults: [expect.stringMatching(/motor has no `rim`/)] });
    expect(
      like([
        { feature: 'P9', margin: 5 },
        { feature: 'P9', margin: 5 },
        { feature: 'P9', margin: 5 },
      ]),
    ).toMatchObject({ ok: false, faults: [expect.stringMatching(/P9/)] });
  });

  test('a bore that the register would not pass is refused', () => {
    // The pump's register is 90.05, the plate's own bore 60.
    const bored = (bore: number) =>
      gasketsOf({
        ...input,
        benches: new Map(),
        job: { gaskets: [{ face: 'pump', holeClearance: 1, bore, outline: 'plate' }], faces: [] },
      });
    expect(bored(91).ok).toBe(true);
    expect(bored(80)).toEqual({
      ok: false,
      faults: [expect.stringMatching(/gasket for pump: its bore is smaller than C2/)],
    });
  });

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
      for (const gasket of gaskets()) {
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
    const words = gasketTemplate(gaskets(), 'B', [{ name: '11 mm', diameter: 11 }], options.speech).labels.map(
      (l) => l.settings[0][1],
    );
    expect(words).toContain('punch 11 mm');
    expect(gasketTemplate(gaskets(), 'B', [], options.speech).labels[0]?.settings[0][1]).toBe(
      '⌀10.8: no punch fits, cut by hand',
    );
  });
});
