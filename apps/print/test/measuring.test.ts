import { circle, pens } from '@fayplate/drawing';
import { beforeAll, describe, expect, test } from 'vitest';
import { type FilledSheet, type PrintedMeasuring, measuringPdf } from '../src/index.js';
import { letters } from './fonts.js';
import { read } from './pdf/reader.js';
import { type Raster, raster } from './raster.js';

const lines = (from: number, count: number): FilledSheet['lines'] =>
  Array.from({ length: count }, (_, k) => ({
    number: from + k,
    reading: `over P${from + k} P9`,
    how: 'across the far sides',
    by: 'caliper',
    unit: k === 3 ? '' : 'mm',
  }));
const sheet = (from: number, count: number): FilledSheet => ({
  of: 'pump',
  picture: {
    title: `pump: readings ${from} to ${from + count - 1}`,
    box: { left: -60, right: 60, bottom: -60, top: 60 },
    shapes: [circle('note', { x: 0, y: 0 }, 50, pens.narrow)],
    notes: ['Seen from outside.'],
    scale: null,
    capital: 3,
  },
  lines: lines(from, count),
});

/** Longest level runs of ink of a page: y and ends, page mm, those longer than `least` mm. */
const runs = (
  image: Raster,
  least: number,
): readonly { readonly y: number; readonly from: number; readonly to: number }[] => {
  const found: { y: number; from: number; to: number }[] = [];
  for (let row = 0; row < image.height; row++) {
    let start = -1;
    for (let column = 0; column <= image.width; column++) {
      const ink = column < image.width && image.dark(column, row) > 0.4;
      if (ink && start < 0) start = column;
      if (ink || start < 0) continue;
      const run = { y: (image.height - row - 0.5) / image.up, from: start / image.across, to: column / image.across };
      if (run.to - run.from > least && (found.at(-1)?.y ?? Number.POSITIVE_INFINITY) - run.y > 1) found.push(run);
      start = -1;
    }
  }
  return found;
};

describe.each(['A4', 'Letter'])('measuring sheets on %s', (paper) => {
  let printed: PrintedMeasuring;
  beforeAll(async () => {
    const out = await measuringPdf([sheet(1, 8), sheet(9, 5)], { paper, date: null, lettering: letters, job: 'Pump' });
    if (!out.ok) throw new Error(out.faults.join());
    printed = out;
  });

  test('a page for each, with its numbers in order and each reading in the words of the job file', async () => {
    expect(printed.pages.map((p) => p.numbers)).toEqual([
      [1, 2, 3, 4, 5, 6, 7, 8],
      [9, 10, 11, 12, 13],
    ]);
    const { pages } = await read(printed.bytes);
    expect(pages).toHaveLength(2);
    expect(pages[0]?.text).toMatch(/overP1P9.*overP2P9.*overP8P9/s);
    expect(pages[1]?.text).not.toContain('overP8P9');
  });

  test('a line to write on beside each number, 12.5 mm under the one before, none where it is yes or no', async () => {
    const image = await raster(printed.bytes, 0, 200);
    const found = runs(image, 40);
    // One pixel is 0.13 mm.
    const rules = found.filter((r) => r.from > 100);
    expect(rules).toHaveLength(7);
    const steps = rules.slice(1).map((r, k) => (rules[k]?.y ?? 0) - r.y);
    const wanted = [12.5, 12.5, 25, 12.5, 12.5, 12.5];
    for (const [k, step] of steps.entries()) expect(Math.abs(step - (wanted[k] ?? 0))).toBeLessThan(0.2);
    for (const r of rules) {
      expect(r.to - r.from).toBeGreaterThan(55);
      expect(Math.abs(r.from - (rules[0]?.from ?? 0))).toBeLessThan(0.2);
      expect(r.to).toBeLessThan(image.width / image.across - 16);
    }
  });

  test('nothing to measure is refused in words', async () => {
    expect(await measuringPdf([], { paper, date: null, lettering: letters, job: 'Pump' })).toMatchObject({ ok: false });
  });
});
