import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  exactFraction,
  formatDegrees,
  formatFraction,
  formatLength,
  parseLength,
  parseLengthMeasure,
  parseLengthRange,
  parseNumber,
  perUnit,
  roundTo,
} from '../../src/index.js';
import { seeded, within } from '../support.js';

const mm = (text: string, unit: 'in' | 'mm' = 'in'): number => {
  const r = parseLength(text, perUnit(unit));
  if (!r.ok) throw new Error(r.expected);
  return r.value;
};

describe('written lengths', () => {
  test.each([
    ['3.531', 3.531 * 25.4],
    ['3 17/32', 3.53125 * 25.4],
    ['3-17/32', 3.53125 * 25.4],
    ['17/32', 0.53125 * 25.4],
    ['3½', 3.5 * 25.4],
    ['½', 12.7],
    ['.5', 12.7],
    ['89.7 mm', 89.7],
    ['89.7mm', 89.7],
    ['3.531 in', 3.531 * 25.4],
    ['3.531"', 3.531 * 25.4],
    [`2' 3 1/2"`, 27.5 * 25.4],
    ['2 ft', 24 * 25.4],
    [`2'-3"`, 27 * 25.4],
    ['2 ft 3 1/2', 27.5 * 25.4],
    ['5 microns', 0.005],
    ['5 thou', 0.127],
    ['-1/2', -12.7],
    ['−3 mm', -3],
  ])('%s', (text, expected) => expect(mm(text)).toBeCloseTo(expected, 10));

  test.each([
    '',
    'abc',
    '3,5',
    '1e3',
    '1/0',
    '3 17',
    '--3',
    '1/2/3',
    '200 m',
    'Infinity',
    'NaN',
    '0x10',
    '9999999 in',
    '1'.repeat(100),
  ])('refuses %s with advice', (text) => {
    const r = parseLength(text, 1);
    expect(r.ok).toBe(false);
    expect(r.ok ? '' : r.expected).not.toBe('');
  });

  test('a decimal comma is answered with the point put in', () => {
    expect(parseNumber('3,5')).toEqual({ ok: false, expected: 'a decimal point, not a comma: 3.5' });
  });

  test.each([
    ['10 cm', 'a length in mm, so that one wrong letter cannot change the unit: 100 mm'],
    ['‘16.69’', 'the length without quotes: 16.69'],
    ["'16.69'", 'the length without quotes: 16.69'],
    ["16'", `feet as 16 ft or 16' 0", inches as 16"`],
  ])('%s is answered with what was likely meant', (text, expected) => {
    expect(parseLength(text, 1)).toEqual({ ok: false, expected });
  });

  test('a unit written once serves both numbers', () => {
    expect(parseLengthMeasure('61.2 ± 0.2 mm', 'in')).toEqual({ ok: true, value: { value: 61.2, plusMinus: 0.2 } });
    expect(parseLengthMeasure('61.2 mm +/- 0.2', 'in')).toEqual({ ok: true, value: { value: 61.2, plusMinus: 0.2 } });
    expect(parseLengthMeasure('1 in ± 0.1 mm', 'mm')).toEqual({ ok: true, value: { value: 25.4, plusMinus: 0.1 } });
    expect(parseLengthMeasure('2 +- 1/64', 'in')).toEqual({ ok: true, value: { value: 50.8, plusMinus: 25.4 / 64 } });
    expect(parseLengthRange('12 .. 30 mm', 'in')).toEqual({ ok: true, value: [12, 30] });
    expect(parseLengthRange('30 .. 12 mm', 'in').ok).toBe(false);
    expect(parseLengthMeasure('3 ± 0', 'in').ok).toBe(false);
  });
});

describe('units', () => {
  test('a length written in either unit is read back', () => {
    fc.assert(
      fc.property(within(0.01, 5000), fc.constantFrom('in' as const, 'mm' as const), (v, unit) => {
        expect(mm(`${formatLength(v, unit, 9)} ${unit}`)).toBeCloseTo(v, 6);
      }),
      seeded,
    );
  });

  test('a fraction moves a value by no more than half a step, and a second rounding moves nothing', () => {
    fc.assert(
      fc.property(within(0, 2000), fc.constantFrom(8, 16, 32, 64), (v, parts) => {
        const once = mm(formatFraction(v, parts));
        expect(Math.abs(once - v)).toBeLessThanOrEqual(25.4 / parts / 2 + 1e-9);
        expect(mm(formatFraction(once, parts))).toBeCloseTo(once, 9);
      }),
      seeded,
    );
  });

  test('rounding to a step is within half a step and idempotent', () => {
    fc.assert(
      fc.property(within(-2000, 2000), fc.constantFrom(0.01, 0.005, 0.0254, 1 / 64), (v, step) => {
        const once = roundTo(v, step);
        expect(Math.abs(once - v)).toBeLessThanOrEqual(step / 2 + 1e-9);
        expect(roundTo(once, step)).toBe(once);
      }),
      seeded,
    );
  });

  test('noughts carry no minus sign', () => {
    expect(formatLength(-0.0001, 'mm')).toBe('0.000');
    expect(formatLength(-0.0004, 'in', 1)).toBe('0.0');
    expect(formatDegrees(-1e-9, 3)).toBe('0.000');
    expect(formatDegrees(-1e-9, 0)).toBe('0');
    expect(formatDegrees(-Math.PI / 6, 2)).toBe('-30.00');
  });

  test('only what is a fraction is called one', () => {
    expect(exactFraction(3.53125 * 25.4)).toBe('3 17/32');
    expect(exactFraction(3.532 * 25.4)).toBeNull();
  });
});
