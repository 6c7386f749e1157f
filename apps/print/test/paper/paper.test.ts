import { describe, expect, test } from 'vitest';
import { stockOf } from '../../src/index.js';

const size = (name: string): readonly (number | null)[] => {
  const s = stockOf(name);
  return s === null ? [] : [s.width, s.height];
};

describe('paper', () => {
  test('ISO 216: each A size is the larger one halved, rounded down; A0 has a square metre in the ratio 1 to √2', () => {
    const a0 = size('A0');
    expect(a0).toEqual([Math.round(1000 * 2 ** (-1 / 4)), Math.round(1000 * 2 ** (1 / 4))]);
    let [short, long] = a0 as [number, number];
    for (const name of ['A1', 'A2', 'A3', 'A4', 'A5']) {
      [short, long] = [Math.floor(long / 2), short];
      expect(size(name)).toEqual([short, long]);
    }
  });

  test('ASME Y14.1: A is 8.5 × 11 in, and each size has the short side doubled', () => {
    let [short, long] = [8.5, 11];
    for (const name of ['ANSI A', 'ANSI B', 'ANSI C', 'ANSI D', 'ANSI E']) {
      const [w, h] = size(name) as [number, number];
      expect(w / 25.4).toBeCloseTo(short, 9);
      expect(h / 25.4).toBeCloseTo(long, 9);
      [short, long] = [long, 2 * short];
    }
    expect(size('Letter')).toEqual(size('ANSI A'));
    expect(size('Tabloid')).toEqual(size('ANSI B'));
    expect((size('Legal')[1] ?? 0) / 25.4).toBeCloseTo(14, 9);
  });

  test('sizes of its own and rolls', () => {
    expect(size('300 x 450 mm')).toEqual([300, 450]);
    expect(size('roll 610 mm')).toEqual([610, null]);
    expect(size('roll 24 in')).toEqual([609.5999999999999, null]);
    for (const bad of [
      'A9',
      '',
      'roll',
      'roll -3 mm',
      '9 x 9 x 9 mm',
      '0 x 10 mm',
      'roll 100 m',
      '100 x 99999 mm',
      'x'.repeat(5000),
    ])
      expect(stockOf(bad)).toBeNull();
  });
});
