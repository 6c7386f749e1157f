import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  formatLength,
  parseAngle,
  parseLength,
  parseLengthMeasure,
  parseLengthRange,
  parseNumber,
} from '@fayplate/core';
import { perOne, second, signs } from './second.js';

const BARE = 7;

const whole = fc.integer({ min: 0, max: 300 });
const fraction = fc
  .integer({ min: 1, max: 6 })
  .chain((k) => fc.integer({ min: 0, max: 2 ** (k - 1) - 1 }).map((n) => `${2 * n + 1}/${2 ** k}`));
const number = fc.oneof(
  whole.map(String),
  fc.tuple(whole, fc.integer({ min: 0, max: 9999 })).map(([a, b]) => `${a}.${b}`),
  fc.integer({ min: 0, max: 9999 }).map((b) => `.${b}`),
  fraction,
  fc.tuple(whole, fc.constantFrom(' ', '-'), fraction).map((t) => t.join('')),
  fc.tuple(whole, fc.constantFrom('', ' '), fc.constantFrom(...Object.keys(signs))).map((t) => t.join('')),
);
const good = fc.oneof(
  {
    weight: 6,
    arbitrary: fc
      .tuple(number, fc.constantFrom('', ' mm', 'mm', ' in', '"', ' thou', ' ft', '″', " ''"))
      .map((t) => t.join('')),
  },
  fc
    .tuple(
      whole,
      fc.constantFrom("' ", "'-", "'", ' ft '),
      fc.integer({ min: 0, max: 11 }),
      fc.constantFrom('"', ' 1/2"', ' in'),
    )
    .map((t) => t.join('')),
);

const alphabet = [...`0123456789 ./-+,'"’″½¼¾omlinftchuedr°µIO±()x:;`];

describe('one grammar of values', () => {
  test('both readers agree on every good value', () => {
    fc.assert(
      fc.property(good, (text) => {
        const two = second(text);
        const one = parseLength(text, BARE);
        expect({ text, read: one.ok, two: two !== null }).toEqual({ text, read: true, two: true });
        if (one.ok && two !== null)
          expect(one.value).toBeCloseTo((Number(two.over) / Number(two.under)) * perOne[two.unit], 9);
      }),
      { seed: 61, numRuns: 3000 },
    );
  });

  test('every accepted text printed again and read again is the same number', () => {
    fc.assert(
      fc.property(good, (text) => {
        const read = parseLength(text, 1);
        if (!read.ok) throw new Error(text);
        expect(parseLength(`${formatLength(read.value, 'mm', 28)} mm`, BARE)).toEqual(read);
      }),
      { seed: 62, numRuns: 2000 },
    );
  });

  /**
   * One sign put in, left out or mistaken: refused, or the same unit and what the digits say; a unit may be lost, never
   * changed.
   */
  test('every single slip of a good value is refused or reads as its digits do', () => {
    let taken = 0;
    let refusedOnes = 0;
    fc.assert(
      fc.property(good, (text) => {
        const before = second(text);
        for (let i = 0; i <= text.length; i++)
          for (const edited of [
            text.slice(0, i) + text.slice(i + 1),
            ...alphabet.flatMap((c) => [
              text.slice(0, i) + c + text.slice(i),
              text.slice(0, i) + c + text.slice(i + 1),
            ]),
          ]) {
            const one = parseLength(edited, BARE);
            if (!one.ok) {
              refusedOnes++;
              continue;
            }
            taken++;
            const two = second(edited);
            if (two === null) throw new Error(`"${edited}" is read as ${one.value}, and the page does not have it`);
            if (Math.abs(one.value - (Number(two.over) / Number(two.under)) * perOne[two.unit]) > 1e-9)
              throw new Error(`"${edited}" is read as ${one.value}`);
            if (two.unit !== before?.unit && two.unit !== 'bare' && before?.unit !== 'bare')
              throw new Error(`"${text}" and "${edited}" are one slip apart and in two units`);
          }
      }),
      { seed: 63, numRuns: 250 },
    );
    expect(taken).toBeGreaterThan(5000);
    expect(refusedOnes).toBeGreaterThan(taken);
  });
});

describe('what is not in it is refused with the reading that was likely meant', () => {
  test.each([
    [`0' 3 mm`, /inches after the feet/],
    [`1'000`, /no mark between thousands: 1000/],
    [`5'`, /inches as 5"/],
    [`2' 13"`, /inches below 12/],
    ['½4', /4½/],
    ['3½2', /3½$/],
    ['3 17/3', /comes to 8 2\/3/],
    ['1 33/32', /comes to 2 1\/32/],
    ['317/32', /3 17\/32/],
    ['9/8', /1 1\/8/],
    ['3,5', /3\.5/],
    ['3, 5', /3\.5/],
    ['1o.5', /10\.5/],
    ['O.5', /0\.5/],
    ['l2.5', /12\.5/],
    ['12 .5', /12\.5/],
    ['1 000', /1000/],
    ['8.97 cm', /89\.7 mm/],
    ['20 µm', /0\.02 mm/],
    ['1.2.5', /12\.5|1\.25/],
    ['–3', /-3/],
    ['3 17\\32', /3 17\/32/],
    ['1e3', /without an exponent/],
  ])('%s', (text, likely) => {
    const read = parseLength(text, 1);
    expect(read.ok ? read.value : read.expected).toMatch(likely);
  });

  test('ranges', () => {
    for (const text of ['0...30 mm', '12 . 30', '12 .. 30 .. 40', '12 … 30'])
      expect({ text, ok: parseLengthRange(text, 'mm').ok }).toEqual({ text, ok: false });
    expect(parseLengthRange('.5..30 mm', 'in')).toEqual({ ok: true, value: [0.5, 30] });
  });

  test('numbers alone', () => expect(parseNumber('17/17').ok).toBe(false));
});

describe('a unit written once', () => {
  test.each([
    ['3.5 ± 2 thou', 'in', 3.5 * 25.4, 0.0508],
    ['3.5 ± 2 thou', 'mm', 3.5, 0.0508],
    ['61.2 ± 0.2 mm', 'in', 61.2, 0.2],
    ['0.5 ± 0.1 mm', 'in', 0.5, 0.1],
    ['3.5 ± 3 mm', 'in', 3.5 * 25.4, 3],
    ['60 ± 20 microns', 'mm', 60, 0.02],
    [`2' 6" ± 1/16`, 'mm', 30 * 25.4, 25.4 / 16],
  ] as const)('%s in a job in %s', (text, unit, value, plusMinus) => {
    const m = parseLengthMeasure(text, unit);
    expect(m.ok && m.value.value).toBeCloseTo(value, 9);
    expect(m.ok && m.value.plusMinus).toBeCloseTo(plusMinus, 9);
  });

  test('half a radian may be written as ½', () => expect(parseAngle('½ rad')).toEqual({ ok: true, value: 0.5 }));
});
