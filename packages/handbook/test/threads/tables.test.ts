import { describe, expect, test } from 'vitest';
import { parseThread, threadForms } from '../../src/index.js';

const thread = (name: string) => {
  const t = parseThread(name);
  if (t === null) throw new Error(name);
  return t;
};
const inches = (mm: number): number => mm / 25.4;

// ASME B1.1, size, major in inches, UNC and UNF threads to the inch: Machinery's Handbook, 31st ed., p. 2168, table 4
// (from 1/4 in; below, from memory).
describe('unified', () => {
  test.each([
    ['#0', 0.06, 0, 80],
    ['#1', 0.073, 64, 72],
    ['#2', 0.086, 56, 64],
    ['#3', 0.099, 48, 56],
    ['#4', 0.112, 40, 48],
    ['#5', 0.125, 40, 44],
    ['#6', 0.138, 32, 40],
    ['#8', 0.164, 32, 36],
    ['#10', 0.19, 24, 32],
    ['#12', 0.216, 24, 28],
    ['1/4', 0.25, 20, 28],
    ['5/16', 0.3125, 18, 24],
    ['3/8', 0.375, 16, 24],
    ['7/16', 0.4375, 14, 20],
    ['1/2', 0.5, 13, 20],
    ['9/16', 0.5625, 12, 18],
    ['5/8', 0.625, 11, 18],
    ['3/4', 0.75, 10, 16],
    ['7/8', 0.875, 9, 14],
    ['1', 1, 8, 12],
    ['1 1/8', 1.125, 7, 12],
    ['1 1/4', 1.25, 7, 12],
    ['1 3/8', 1.375, 6, 12],
    ['1 1/2', 1.5, 6, 12],
  ] as const)('%s', (size, major, unc, unf) => {
    for (const [tpi, series] of [
      [unc, 'UNC'],
      [unf, 'UNF'],
    ] as const) {
      if (tpi === 0) continue;
      const t = thread(`${size} ${series}`);
      expect([t.name, t.tpi]).toEqual([`${size}-${tpi} ${series}`, tpi]);
      expect(inches(t.major)).toBeCloseTo(major, 9);
    }
  });
});

// ISO 261 coarse pitch and basic internal minor D − 1.082532 P, mm.
describe('metric', () => {
  test.each([
    ['M2', 0.4],
    ['M2.5', 0.45],
    ['M3', 0.5],
    ['M3.5', 0.6],
    ['M4', 0.7],
    ['M5', 0.8],
    ['M6', 1],
    ['M8', 1.25],
    ['M10', 1.5],
    ['M12', 1.75],
    ['M14', 2],
    ['M16', 2],
    ['M18', 2.5],
    ['M20', 2.5],
    ['M22', 2.5],
    ['M24', 3],
  ])('%s has pitch %d', (name, pitch) => expect(thread(name).pitch).toBe(pitch));
  test.each([
    ['M3', 2.459],
    ['M4', 3.242],
    ['M5', 4.134],
    ['M6', 4.917],
    ['M8', 6.647],
    ['M10', 8.376],
    ['M12', 10.106],
    ['M16', 13.835],
    ['M20', 17.294],
    ['M24', 20.752],
  ])('%s has minor %d', (name, minor) => expect(thread(name).minor).toBeCloseTo(minor, 3));
});

// BS 84, threads to the inch and core diameter D − 1.280654 p in inches: a gauge maker's page, a handbook's nut table.
describe('Whitworth and British Standard Fine', () => {
  test.each([
    ['1/8 BSW', 40, 0.093],
    ['3/16 BSW', 24, 0.1341],
    ['1/4 BSW', 20, 0.186],
    ['5/16 BSW', 18, 0.2414],
    ['3/8 BSW', 16, 0.295],
    ['7/16 BSW', 14, 0.346],
    ['1/2 BSW', 12, 0.3933],
    ['9/16 BSW', 12, 0.4558],
    ['5/8 BSW', 11, 0.5086],
    ['3/4 BSW', 10, 0.6219],
    ['7/8 BSW', 9, 0.7327],
    ['1 BSW', 8, 0.8399],
    ['3/16 BSF', 32, 0.1475],
    ['7/32 BSF', 28, 0.173],
    ['1/4 BSF', 26, 0.2007],
    ['5/16 BSF', 22, 0.2543],
    ['3/8 BSF', 20, 0.311],
    ['7/16 BSF', 18, 0.3664],
    ['1/2 BSF', 16, 0.42],
    ['9/16 BSF', 16, 0.4825],
    ['5/8 BSF', 14, 0.5335],
    ['11/16 BSF', 14, 0.596],
    ['3/4 BSF', 12, 0.6433],
    ['7/8 BSF', 11, 0.7586],
    ['1 BSF', 10, 0.8719],
  ])('%s', (name, tpi, core) => {
    const t = thread(name);
    expect(t.tpi).toBe(tpi);
    expect(Math.abs(inches(t.minor) - core)).toBeLessThan(0.000051);
  });
  test('3/16 BSW effective 0.1608 in, an engineering reference page', () =>
    expect(inches(thread('3/16 BSW').pitchDiameter)).toBeCloseTo(0.1608, 4));
});

// BS 93 as in a handbook's table: pitch, major, effective, minor, depth, mm.
describe('BA', () => {
  const columns = {
    pitch: [1.0, 0.9, 0.81, 0.73, 0.66, 0.59, 0.53, 0.48, 0.43, 0.39, 0.35, 0.31, 0.28, 0.25, 0.23, 0.21, 0.19],
    major: [6.0, 5.3, 4.7, 4.1, 3.6, 3.2, 2.8, 2.5, 2.2, 1.9, 1.7, 1.5, 1.3, 1.2, 1.0, 0.9, 0.79],
    pitchDiameter: [
      5.4, 4.76, 4.215, 3.66, 3.205, 2.845, 2.48, 2.21, 1.94, 1.665, 1.49, 1.315, 1.13, 1.05, 0.86, 0.775, 0.675,
    ],
    minor: [4.8, 4.22, 3.73, 3.22, 2.81, 2.49, 2.16, 1.92, 1.68, 1.43, 1.28, 1.13, 0.96, 0.9, 0.72, 0.65, 0.56],
    depth: [0.6, 0.54, 0.485, 0.44, 0.395, 0.355, 0.32, 0.29, 0.26, 0.235, 0.21, 0.185, 0.17, 0.15, 0.14, 0.125, 0.115],
  } as const;
  test.each(Object.entries(columns))('%s', (column, values) => {
    for (const [n, value] of values.entries())
      expect(thread(`${n} BA`)[column as keyof typeof columns]).toBeCloseTo(value, 9);
  });
  test('the rule p = 0.9ⁿ, D = 6 p^1.2 of the unrounded pitch gives the table', () => {
    for (let n = 0; n <= 16; n += 1) {
      const t = thread(`${n} BA`);
      expect(t.pitch).toBe(Number((0.9 ** n).toFixed(2)));
      expect(t.major).toBe(Number((6 * (0.9 ** n) ** 1.2).toPrecision(2)));
    }
  });
});

// Depth factors of the forms: bolt-science and handbook pages.
test('depths of thread', () => {
  expect(2 * threadForms.unified.external).toBeCloseTo(1.226869, 6);
  expect(2 * threadForms.metric.internal).toBeCloseTo(1.082532, 6);
  expect(2 * threadForms.unified.full).toBeCloseTo(1.299038, 6);
  expect(threadForms.whitworth.full).toBe(0.640327);
  expect(threadForms.BA.full).toBe(0.6);
});
