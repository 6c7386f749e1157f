import {
  type LengthUnit,
  type Measure,
  type Parsed,
  headingOfClock,
  parseAngle,
  parseClock,
  parseLength,
  parseLengthBand,
  parseLengthMeasure,
  parseLengthRange,
  parseNumber,
  parsed,
  perUnit,
  refused,
  splitRange,
} from '@fayplate/core';
import { leaf } from './leaf.js';

type Help = string;

const lengthWords = 'a length such as 3.531, 3 17/32 or 89.7 mm';
const angleWords = "an angle such as 30, 30 deg or 30° 15'";

export const above = (limit: number, words: string, p: Parsed<number>): Parsed<number> =>
  p.ok && !(p.value > limit) ? refused(words) : p;
const notBelow = (limit: number, words: string, p: Parsed<number>): Parsed<number> =>
  p.ok && p.value < limit ? refused(words) : p;

/** `± 0.5 deg` → radians. */
export const parseAngleBand = (text: string): Parsed<number> => {
  const a = parseAngle(text.trim().replace(/^(?:±|\+\/-|\+-)/, ''));
  return above(0, 'a ± above zero', a);
};

export const isAngle = (text: string): boolean => /°|deg|rad/i.test(text);

/** `-15 .. 15 deg` → radians; a unit written once, at the end, serves both. */
const parseAngleRange = (text: string): Parsed<readonly [number, number]> => {
  const ends = splitRange(text, '-15 .. 15 deg');
  if (!ends.ok) return ends;
  const [from, to] = ends.value;
  const a = parseAngle(/rad/i.test(to) && !isAngle(from) ? `${from.trim()} rad` : from);
  if (!a.ok) return a;
  const b = parseAngle(to);
  if (!b.ok) return b;
  return a.value < b.value ? parsed([a.value, b.value]) : refused('the lesser end of the range first');
};

/** `1.5 d`, a bare `1.5` (diameters) or a length with its unit. */
const parseMultiple = (
  text: string,
  unit: LengthUnit,
): Parsed<{ readonly times: number } | { readonly length: number }> => {
  const words = 'a number of diameters such as 1.5 d, or a length with its unit';
  const times = parseNumber(text.replace(/ ?d$/i, ''));
  if (times.ok)
    return times.value > 0 && times.value <= 100
      ? parsed({ times: times.value })
      : refused('above 0 and at most 100 diameters');
  const length = parseLength(text, perUnit(unit));
  if (!length.ok) return refused(words);
  return length.value > 0 ? parsed({ length: length.value }) : refused('a length above zero');
};

/** The values of a job file whose bare numbers are in `unit`. Lengths come out in mm, angles in radians. */
export const valuesIn = (unit: LengthUnit) => {
  const bare = perUnit(unit);
  return {
    /** Signed. */
    length: (description: Help) =>
      leaf(lengthWords, (t) => parseLength(t, bare), { description, examples: ['1/4', '6 mm'] }),
    /** Zero allowed. */
    clear: (description: Help) =>
      leaf(lengthWords, (t) => notBelow(0, 'a length not below zero', parseLength(t, bare)), {
        description,
        examples: ['1/32', '0.5 mm'],
      }),
    size: (description: Help) =>
      leaf(lengthWords, (t) => above(0, 'a length above zero', parseLength(t, bare)), {
        description,
        examples: [3.531, '3 17/32', '89.7 mm'],
      }),
    /** A size with or without its ±. */
    sizeMeasure: (description: Help) =>
      leaf<Measure>(
        'a length such as 6.000 ± 0.001',
        (t) => {
          const m = parseLengthMeasure(t, unit);
          return m.ok && !(m.value.value > 0) ? refused('a length above zero') : m;
        },
        { description, examples: ['6.000 ± 0.001', '61.2 ± 0.2 mm'] },
      ),
    /** A length not below zero with or without its ±. */
    gap: (description: Help) =>
      leaf<Measure>(
        'a gap such as 0.42 or 0.42 ± 0.03',
        (t) => {
          const m = parseLengthMeasure(t, unit);
          return m.ok && m.value.value < 0 ? refused('a gap not below zero') : m;
        },
        { description, examples: [0.42, '0.42 ± 0.03 mm', '0.016 in'] },
      ),
    /** A length with its ±, both needed. */
    linkMeasure: (description: Help) =>
      leaf<{ readonly value: number; readonly plusMinus: number }>(
        'a length with its ±, such as 61.2 ± 0.2 mm',
        (t) => {
          const m = parseLengthMeasure(t, unit);
          if (!m.ok) return m;
          const { value, plusMinus } = m.value;
          if (plusMinus === null) return refused('its ± as well, such as 61.2 ± 0.2 mm');
          return value > 0 ? parsed({ value, plusMinus }) : refused('a length above zero');
        },
        { description, examples: ['61.2 ± 0.2 mm', '3 17/32 ± 1/64'] },
      ),
    band: (description: Help) =>
      leaf('a ± such as ± 0.002 in', (t) => parseLengthBand(t, unit), {
        description,
        examples: ['± 0.002 in', '± 0.05 mm'],
      }),
    range: (description: Help) =>
      leaf(
        'a range such as 12 .. 30 mm',
        (t) => {
          const r = parseLengthRange(t, unit);
          return r.ok && r.value[0] < 0 ? refused('lengths not below zero') : r;
        },
        { description, examples: ['12 .. 30 mm'] },
      ),
    multiple: (description: Help) =>
      leaf('a number of diameters such as 1.5 d', (t) => parseMultiple(t, unit), {
        description,
        examples: ['1.5 d', 1.5, '15 mm'],
      }),
    /** Of an instrument: a length or, with a written °, deg or rad, an angle. */
    instrumentBand: (description: Help) =>
      leaf<{ readonly measures: 'length' | 'angle'; readonly plusMinus: number }>(
        'a ± such as ± 0.002 in or ± 0.5 deg',
        (t) => {
          const measures = isAngle(t) ? 'angle' : 'length';
          const b = measures === 'angle' ? parseAngleBand(t) : parseLengthBand(t, unit);
          return b.ok ? parsed({ measures, plusMinus: b.value }) : b;
        },
        { description, examples: ['± 0.002 in', '± 0.5 deg'] },
      ),
    angle: (description: Help) => leaf(angleWords, parseAngle, { description, examples: ['22.5 deg', 30] }),
    /** Above zero. */
    bend: (description: Help) =>
      leaf(angleWords, (t) => above(0, 'an angle above zero', parseAngle(t)), { description, examples: ['0.1 deg'] }),
    angleBand: (description: Help) =>
      leaf('a ± such as ± 0.5 deg', parseAngleBand, { description, examples: ['± 0.5 deg'] }),
    angleRange: (description: Help) =>
      leaf('a range such as -15 .. 15 deg', parseAngleRange, { description, examples: ['-15 .. 15 deg'] }),
    clock: (description: Help) =>
      leaf('a clock position such as 2 or "9:30"', parseClock, { description, examples: [12, '9:30'] }),
    /** Clock position, or an angle with its unit, clockwise from 12 o'clock → radians clockwise. */
    phase: (description: Help) =>
      leaf(
        'an angle clockwise from 12 o\'clock, such as 15 deg, or a clock position such as "1:30"',
        (t) => {
          if (/^\d{1,2}:\d\d$/.test(t)) {
            const c = parseClock(t);
            return c.ok ? parsed(headingOfClock(0) - c.value) : c;
          }
          return parseAngle(t);
        },
        { description, examples: ['15 deg'] },
      ),
  };
};

export type Values = ReturnType<typeof valuesIn>;
