import { describe, expect, test } from 'vitest';
import { MM_PER_INCH, say, sayNearest, sayNumber, speechFor, forReader, sayApart } from '../../src/index.js';

const inch = (v: number): number => v * MM_PER_INCH;
const eighths = speechFor('in', 8);

describe('lengths said in fractions of an inch', () => {
  test.each([
    [3.75, '3 3/4'],
    [0, '0'],
    [-0.125, '-1/8'],
    // A fraction that is not the size would be another size, another drill, no play at all.
    [0.689, '0.6890'],
    [13 / 32, '0.4063'],
    [0.0162, '0.0162'],
    [3.624, '3.6240'],
  ])('a size of %d in is said as %s: as a fraction only where it is one', (v, said) => {
    expect(sayNumber(inch(v), eighths)).toBe(said);
  });

  test('to the places that are shown', () => {
    expect(sayNumber(inch(0.7502), eighths, 3)).toBe('3/4');
    expect(sayNumber(inch(0.7502), eighths)).toBe('0.7502');
    expect(say(inch(0.375), eighths, 3)).toBe('3/8 in');
  });

  test.each([
    [2.2702, '2 1/4'],
    [-1.3158, '-1 3/8'],
    [0.05, '0'],
  ])('a place at %d in, laid out by rule, is said to the nearest: %s', (v, said) => {
    expect(sayNearest(inch(v), eighths)).toBe(said);
  });

  test('mm have none', () => {
    expect(sayNumber(9.525, speechFor('mm', 8))).toBe('9.525');
    expect(sayNearest(9.525, speechFor('mm', 8))).toBe('9.525');
  });
});

describe('two lengths beside each other', () => {
  const inches = { unit: 'in', fraction: null } as const;
  test('that differ are never printed alike, and that are the same always', () => {
    // 4.9996 mm and 5 mm are 5.00 both; a third place tells them apart no more than the fourth does.
    expect(sayApart(4.9996, 5, { unit: 'mm', fraction: null }, 2)).toEqual(['4.9996 mm', '5.0000 mm']);
    expect(sayApart(5, 5, inches, 3)).toEqual(['0.197 in', '0.197 in']);
    expect(sayApart(3, 5, inches, 3)).toEqual(['0.118 in', '0.197 in']);
  });
  test('in the words of the reader', () => {
    expect([forReader('write `up`', 'say which is up', {}), forReader('a', 'b', { atBench: true })]).toEqual([
      'write `up`',
      'b',
    ]);
  });
});
