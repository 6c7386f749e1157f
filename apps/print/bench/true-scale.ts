import type { PrinterScale } from '@fayplate/drawing';
import { circlePath, distance, polar, randomFrom } from '@fayplate/core';
import type { PlateHole } from '@fayplate/plate';
import { printTemplates } from '../src/index.js';
import { carry } from '../src/geometry/affine.js';
import { input } from '../test/jobs.js';
import { crossAt, tickAt } from '../test/measure.js';
import { type Planned, options, outlined, pumpPlate } from '../test/plates.js';
import { raster } from '../test/raster.js';

/** How true printed pages are: random plates on many papers, every sheet rendered at 600 dpi and measured. */
const plateOf = (seed: number): Planned => {
  const random = randomFrom(seed);
  const radius = 60 + 240 * random.uniform();
  const holes: PlateHole[] = [];
  for (let i = 0; i < 30; i++) {
    const at = polar((radius - 18) * Math.sqrt(random.uniform()), 2 * Math.PI * random.uniform());
    const diameter = 6 + 10 * random.uniform();
    if (holes.some((h) => distance(h, at) < h.diameter / 2 + diameter / 2 + 8)) continue;
    holes.push({
      ...(pumpPlate.holes[0] as PlateHole),
      ...at,
      id: `H${holes.length + 1}`,
      feature: `pump.P${holes.length + 1}`,
      diameter,
      drill: null,
    });
  }
  return { ...pumpPlate, bores: [], clocking: 0, holes, outline: outlined(circlePath({ x: 0, y: 0 }, radius)) };
};

const printers: readonly (PrinterScale | null)[] = [
  null,
  {
    name: 'bench',
    wide: 0.9931,
    high: 1.0042,
    skew: 0.003,
    plusMinus: { wide: 0.001, high: 0.001, skew: null },
    date: '2024-03-01',
    paper: '',
  },
];

const worst = { holes: 0, marks: 0, rulers: 0 };
const count = { plates: 0, sheets: 0, holes: 0, marks: 0, rulers: 0 };
for (const [i, paper] of [
  'A5',
  'A4',
  'A3',
  'Letter',
  'Legal',
  'ANSI C',
  'A4',
  '300 x 200 mm',
  'Tabloid',
  'A4',
  'roll 420 mm',
  'single',
].entries()) {
  const plate = plateOf(100 + i);
  const side = i % 2 === 0 ? 'B' : 'A';
  const out = await printTemplates(
    { ...input, plate },
    { ...options, what: 'drill', side, paper, printer: printers[i % 3 === 1 ? 1 : 0] ?? null },
  );
  if (!out.ok) throw new Error(out.faults.join('; '));
  count.plates++;
  for (const page of out.json.pages.filter((p) => p.kind === 'tile')) {
    count.sheets++;
    const image = await raster(out.bytes, page.page - 1, 600);
    const toPage = page.to_page ?? [1, 0, 0, 1, 0, 0];
    for (const id of page.holes ?? []) {
      const hole = plate.holes.find((h) => h.id === id) ?? { x: 0, y: 0, diameter: 10 };
      const at = carry(toPage, hole);
      // A cross-hair that the edge of the drawing cuts off is whole on the next sheet.
      if (Math.min(at.x - 20, at.y - 31, page.width - 8 - at.x, page.height - 8 - at.y) < hole.diameter / 2) continue;
      const band: readonly [number, number] = [hole.diameter > 6.2 ? 1.7 : 0.9, hole.diameter / 2 - 0.3];
      const [x, y] = crossAt(image, [at.x, at.y], ...band);
      worst.holes = Math.max(worst.holes, Math.hypot(x - at.x, y - at.y));
      count.holes++;
    }
    for (const m of page.marks ?? []) {
      const [x, y] = crossAt(image, m.at, 0.3, 1.1);
      worst.marks = Math.max(worst.marks, Math.hypot(x - m.at[0], y - m.at[1]));
      count.marks++;
    }
    for (const [k, r] of (page.rulers ?? []).entries()) {
      const along = k < 2 ? 'across' : 'up';
      const tick = (at: readonly [number, number]): number =>
        tickAt(image, at, along, (k % 2 === 0) === (along === 'across') ? 1 : -1);
      const want = along === 'across' ? r.to[0] - r.from[0] : r.to[1] - r.from[1];
      worst.rulers = Math.max(worst.rulers, Math.abs(tick(r.to) - tick(r.from) - want));
      count.rulers++;
    }
  }
}
console.log(`printed pages at 600 dpi: ${count.plates} random plates on ${count.sheets} sheets`);
for (const kind of ['holes', 'marks', 'rulers'] as const)
  console.log(
    `${kind.padEnd(8)} ${String(count[kind]).padStart(4)} measured, worst ` +
      `${(1000 * worst[kind]).toFixed(2).padStart(6)} µm from where the plate says`,
  );
