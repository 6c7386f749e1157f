import type { PrinterScale } from '@fayplate/drawing';
import { describe, expect, test } from 'vitest';
import { type PrintOptions, stockOf } from '../../src/index.js';
import type { Stock } from '../../src/paper/paper.js';
import type { Template } from '../../src/template/types.js';
import { madeToMeasure, planSheets } from '../../src/tiles/plan.js';
import { options } from '../plates.js';

/** Of a template only what it takes of paper. */
const sized = (width: number, height: number): Template =>
  ({ what: 'drill', box: { left: 0, bottom: 0, right: width, top: height }, holes: [] }) as unknown as Template;
const printer = (paper: string): PrinterScale => ({
  name: 'workshop',
  wide: 1,
  high: 1,
  skew: 0,
  plusMinus: { wide: 0.001, high: 0.001, skew: null },
  date: '2024-03-01',
  paper,
});
const stock = (name: string): Stock => {
  const found = stockOf(name);
  if (found === null) throw new Error(name);
  return found;
};
const planned = (template: Template, paper: Stock, more: Partial<PrintOptions> = {}, single = false) =>
  planSheets(template, { ...options, orientation: 'any', sheet: null, printer: null, ...more }, paper, single);
const warnings = (...args: Parameters<typeof planned>): string => {
  const plan = planned(...args);
  return typeof plan === 'string' ? plan : plan.warnings.join();
};

describe('what is said of paper and printer', () => {
  test('sheets are kept upright for a measured printer, and what landscape would save is told', () => {
    // 240 across: two upright sheets of 210, or one of 297.
    expect(warnings(sized(240, 120), stock('A4'), { printer: printer('A4') })).toContain(
      'workshop was measured; 1 instead of 2 would do in landscape',
    );
    expect(warnings(sized(240, 120), stock('A4'))).toBe('');
    expect(warnings(sized(120, 120), stock('A4'), { printer: printer('A4') })).toBe('');
  });
  test('paper that the printer was not measured on', () => {
    expect(warnings(sized(100, 100), stock('A3'), { printer: printer('A4') })).toBe(
      'workshop was measured on A4, not on A3: check the rulers with care',
    );
    expect(warnings(sized(100, 100), stock('A3'), { printer: printer('') })).toBe('');
  });
  test.each([
    [1, 2],
    [2, 1],
    [0, 1],
    [1, 0],
    [1.5, 1],
    [1, 1.5],
  ])('sheet %d,%d of one is refused', (r, c) => {
    expect(planned(sized(100, 100), stock('A4'), { sheet: [r, c] })).toBe(
      `there is no sheet ${r},${c}: sheets run from 1,1 to 1,1 (row, column)`,
    );
  });
  test('sheet 1,1 of one is printed', () =>
    expect(planned(sized(100, 100), stock('A4'), { sheet: [1, 1] })).toMatchObject({ grid: { rows: 1, columns: 1 } }));
  test.each([
    [6000, 300],
    [300, 6000],
  ])('a sheet of %d by %d mm is longer than a PDF page can be', (width, height) => {
    expect(planned(sized(100, 100), { name: 'banner', width, height })).toContain(
      'one sheet of banner is longer than a PDF page can be (5080 mm)',
    );
  });
  test.each([
    [200.3, 150.7],
    [300.01, 400.99],
    [20, 20],
  ])('one sheet made to measure holds %d by %d mm', (width, height) => {
    const template = sized(width, height);
    const sheet = madeToMeasure(template, options.margin, 5);
    expect([sheet.width % 1, (sheet.height ?? 0) % 1]).toEqual([0, 0]);
    expect(planned(template, sheet, {}, true)).toMatchObject({ grid: { rows: 1, columns: 1 } });
  });
});
