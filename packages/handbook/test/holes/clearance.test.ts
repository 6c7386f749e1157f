import { describe, expect, test } from 'vitest';
import { type ClearanceFit, clearanceFits, clearanceHole, parseThread, threads } from '../../src/index.js';

const hole = (name: string, fit: ClearanceFit) => {
  const t = parseThread(name);
  if (t === null) throw new Error(name);
  return clearanceHole(t, fit);
};

// ISO 273, fine, medium, coarse, mm: a hardware reference page to M16; from M18 lists of BS 4186, the same there.
describe('ISO 273', () => {
  test.each([
    ['M1.6', 1.7, 1.8, 2],
    ['M2', 2.2, 2.4, 2.6],
    ['M2.5', 2.7, 2.9, 3.1],
    ['M3', 3.2, 3.4, 3.6],
    ['M3.5', 3.7, 3.9, 4.2],
    ['M4', 4.3, 4.5, 4.8],
    ['M5', 5.3, 5.5, 5.8],
    ['M6', 6.4, 6.6, 7],
    ['M7', 7.4, 7.6, 8],
    ['M8', 8.4, 9, 10],
    ['M10', 10.5, 11, 12],
    ['M12', 13, 13.5, 14.5],
    ['M14', 15, 15.5, 16.5],
    ['M16', 17, 17.5, 18.5],
    ['M18', 19, 20, 21],
    ['M20', 21, 22, 24],
    ['M22', 23, 24, 26],
    ['M24', 25, 26, 28],
    ['M27', 28, 30, 32],
    ['M30', 31, 33, 35],
    ['M33', 34, 36, 38],
    ['M36', 37, 39, 42],
    ['M39', 40, 42, 45],
  ] as const)('%s', (name, ...want) => expect(clearanceFits.map((f) => hole(name, f).diameter)).toEqual(want));
});

// ASME B18.2.8 drills for close, normal and loose holes: normal to 7/16 read, the rest from memory.
describe('ASME B18.2.8', () => {
  test.each([
    ['#0-80', '#51', '#48', '3/32'],
    ['#1-64', '#46', '#43', '#37'],
    ['#2-56', '3/32', '#38', '#32'],
    ['#3-48', '#36', '#32', '#30'],
    ['#4-40', '#31', '#30', '#27'],
    ['#5-40', '9/64', '5/32', '11/64'],
    ['#6-32', '#23', '#18', '#13'],
    ['#8-32', '#15', '#9', '#3'],
    ['#10-24', '#5', '#2', 'B'],
    ['1/4-20', '17/64', '9/32', '19/64'],
    ['5/16-18', '21/64', '11/32', '23/64'],
    ['3/8-16', '25/64', '13/32', '27/64'],
    ['7/16-14', '29/64', '15/32', '31/64'],
    ['1/2-13', '17/32', '9/16', '39/64'],
    ['5/8-11', '21/32', '11/16', '47/64'],
    ['3/4-10', '25/32', '13/16', '29/32'],
    ['7/8-9', '29/32', '15/16', '1 1/32'],
    ['1-8', '1 1/32', '1 3/32', '1 5/32'],
    ['1 1/8-7', '1 5/32', '1 7/32', '1 5/16'],
    ['1 1/4-7', '1 9/32', '1 11/32', '1 7/16'],
    ['1 3/8-6', '1 7/16', '1 1/2', '1 39/64'],
    ['1 1/2-6', '1 9/16', '1 5/8', '1 47/64'],
  ] as const)('%s', (name, ...want) => expect(clearanceFits.map((f) => hole(name, f).drill?.name)).toEqual(want));

  // Greatest loose holes in inches as printed: the drill and H14, rounded. At 1 in the printed tolerance is that of the
  // next range.
  test.each([
    ['#0-80', 0.104, 0.002],
    ['#1-64', 0.114, 0.002],
    ['#2-56', 0.126, 0.002],
    ['#3-48', 0.14, 0.002],
    ['#4-40', 0.156, 0.002],
    ['#5-40', 0.184, 0.002],
    ['#6-32', 0.197, 0.002],
    ['#8-32', 0.225, 0.002],
    ['1/4-20', 0.311, 0.002],
    ['5/16-18', 0.373, 0.002],
    ['3/8-16', 0.438, 0.002],
    ['7/16-14', 0.5, 0.002],
    ['1/2-13', 0.625, 0.002],
    ['5/8-11', 0.754, 0.002],
    ['3/4-10', 0.926, 0.002],
    ['7/8-9', 1.051, 0.002],
    ['1-8', 1.181, 0.0045],
    ['1 1/8-7', 1.337, 0.002],
    ['1 1/4-7', 1.463, 0.002],
    ['1 3/8-6', 1.634, 0.002],
    ['1 1/2-6', 1.759, 0.002],
  ])('%s loose is at most %d in', (name, most, within) =>
    expect(Math.abs(hole(name, 'loose').most / 25.4 - most)).toBeLessThan(within),
  );
});

describe('sizes that no standard read covers', () => {
  test('take the nearest rule and say so', () => {
    expect(hole('3/8 BSW', 'normal').drill?.name).toBe('13/32');
    expect(hole('9/16-12', 'normal').source).toMatch(/^common practice/);
    expect(hole('2 BA', 'close').diameter).toBeCloseTo(5, 9);
    expect(hole('2 BA', 'close').source).toMatch(/^common practice/);
    expect(hole('M10', 'close').source).toMatch(/^ISO 273/);
  });
  test('every thread has three holes that grow, each clear of the bolt and with a drill not below it', () => {
    for (const t of threads) {
      const [a, b, c] = clearanceFits.map((f) => clearanceHole(t, f));
      if (a === undefined || b === undefined || c === undefined) throw new Error(t.name);
      expect([t.name, t.major < a.diameter && a.diameter < b.diameter && b.diameter < c.diameter]).toEqual([
        t.name,
        true,
      ]);
      for (const h of [a, b, c])
        expect([
          t.name,
          (h.drill === null ? h.diameter > 88.9 : h.drill.diameter >= h.diameter - 1e-6) && h.most > h.diameter,
        ]).toEqual([t.name, true]);
    }
  });
});
