import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  formatLength,
  parseAngle,
  parseLength,
  parseLengthMeasure,
  parseLengthRange,
  parseNumber,
} from '../../src/index.js';

/**
 * A second reader of lengths, written from the page JOB-FILE.md and not from the first: it goes through the text sign by sign
 * and keeps whole numbers only. Gives the exact value as a fraction of what its unit counts, or null for what the page does not have.
 */
interface Second {
  readonly over: bigint;
  readonly under: bigint;
  readonly unit: 'mm' | 'in' | 'thou' | 'ft' | 'micron' | 'bare';
}

const units: Readonly<Record<string, Second['unit']>> = {
  '': 'bare',
  mm: 'mm',
  in: 'in',
  'in.': 'in',
  inch: 'in',
  inches: 'in',
  '"': 'in',
  '″': 'in',
  '”': 'in',
  "''": 'in',
  thou: 'thou',
  thousandths: 'thou',
  ft: 'ft',
  foot: 'ft',
  feet: 'ft',
  micron: 'micron',
  microns: 'micron',
};
const signs: Readonly<Record<string, readonly [bigint, bigint]>> = {
  '½': [1n, 2n],
  '¼': [1n, 4n],
  '¾': [3n, 4n],
  '⅛': [1n, 8n],
  '⅜': [3n, 8n],
  '⅝': [5n, 8n],
  '⅞': [7n, 8n],
};

const isDigit = (c: string): boolean => c >= '0' && c <= '9' && c.length === 1;

const second = (text: string): Second | null => {
  let rest = text.trim();
  let sign = 1n;
  if (rest.startsWith('-') || rest.startsWith('−')) [sign, rest] = [-1n, rest.slice(1).trim()];
  else if (rest.startsWith('+')) rest = rest.slice(1).trim();
  let i = 0;
  const digits = (): string => {
    const from = i;
    while (isDigit(rest[i] ?? '')) i++;
    return rest.slice(from, i);
  };
  const gap = (): number => {
    const from = i;
    while (rest[i] === ' ') i++;
    return i - from;
  };
  const number = (): readonly [bigint, bigint] | null => {
    const first = digits();
    if (rest[i] === '.') {
      i++;
      const tail = digits();
      return first === '' && tail === '' ? null : [BigInt(first + tail), 10n ** BigInt(tail.length)];
    }
    const after = i;
    if (first !== '' && rest[i] === '-') i++;
    else gap();
    const whole = first === '' ? 0n : BigInt(first);
    const one = signs[rest[i] ?? ''];
    if (one !== undefined) {
      i++;
      return [whole * one[1] + one[0], one[1]];
    }
    const stroke = (over: string, units: bigint): readonly [bigint, bigint] | null => {
      if (rest[i] === ' ' && '/⁄'.includes(rest[i + 1] ?? 'x')) i++;
      if (!'/⁄'.includes(rest[i] ?? 'x') || over === '') return null;
      i++;
      if (rest[i] === ' ') i++;
      const under = digits();
      if (under === '' || BigInt(over) >= BigInt(under)) return null;
      return [units * BigInt(under) + BigInt(over), BigInt(under)];
    };
    if (isDigit(rest[i] ?? '') && i > after) {
      const start = i;
      const f = stroke(digits(), whole);
      if (f !== null) return f;
      i = start;
      return null;
    }
    i = after;
    if (first === '') return null;
    const kept = i;
    const f = stroke(first, 0n);
    if (f !== null) return f;
    if (rest.slice(kept).trimStart().startsWith('/') || rest.slice(kept).trimStart().startsWith('⁄')) return null;
    i = kept;
    return [whole, 1n];
  };
  const n = number();
  if (n === null) return null;
  const behind = rest.slice(i).trim();
  const unit = units[behind.toLowerCase()];
  if (unit !== undefined) return { over: sign * n[0], under: n[1], unit };
  const feet = /^(?:['′’]|ft)/i.exec(behind);
  if (feet === null || n[1] !== 1n) return null;
  const parted = /^[ -]/.test(behind.slice(feet[0].length));
  const inches = second(behind.slice(feet[0].length).replace(/^ *-? */, ''));
  if (inches === null || /^[ +−-]/.test(behind.slice(feet[0].length).replace(/^ *-? */, ''))) return null;
  if (inches.unit !== 'in' && !(inches.unit === 'bare' && parted)) return null;
  if (inches.over >= 12n * inches.under) return null;
  return { over: sign * (n[0] * 12n * inches.under + inches.over), under: inches.under, unit: 'in' };
};

const perOne: Readonly<Record<Second['unit'], number>> = {
  mm: 1,
  in: 25.4,
  thou: 0.0254,
  ft: 304.8,
  micron: 0.001,
  bare: 7,
};
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

  /** One sign put in, left out or mistaken: refused, or the same unit and what the digits say; a unit may be lost, never changed. */
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
