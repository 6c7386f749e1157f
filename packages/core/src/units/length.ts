import { parseNumber } from './number.js';
import { type Measure, type Parsed, parsed, refused } from './quantity.js';

/** The two units that a job may be in. */
export type LengthUnit = 'mm' | 'in';
/** The international inch of 1959, mm; exact. */
export const MM_PER_INCH = 25.4;
/** mm in one of the unit. */
export const perUnit = (unit: LengthUnit): number => (unit === 'in' ? MM_PER_INCH : 1);
/** Longest length that a job may state, mm (100 m). */
export const LONGEST = 100_000;

const suffixes: readonly (readonly [RegExp, number])[] = [
  [/ ?mm$/i, 1],
  [/ ?cm$/i, 10],
  [/ ?(?:µm|um|micron)$/i, 0.001],
  [/ ?(?:inches|inch|in\.?)$/i, MM_PER_INCH],
  [/ ?(?:"|″|”|'')$/, MM_PER_INCH],
  [/ ?(?:thousandths|thou)$/i, MM_PER_INCH / 1000],
  [/ ?(?:feet|foot|ft)$/i, 12 * MM_PER_INCH],
  [/ ?(?:'|′|’)$/, 12 * MM_PER_INCH],
];

/** Splits a trailing unit off a written length; `factor` is mm per unit, null where no unit is written. */
export const splitUnit = (text: string): { readonly number: string; readonly factor: number | null } => {
  const t = text.trim();
  for (const [pattern, factor] of suffixes) {
    const m = pattern.exec(t);
    if (m !== null) return { number: t.slice(0, m.index).trim(), factor };
  }
  return { number: t, factor: null };
};

const signed = (text: string): { readonly sign: 1 | -1; readonly rest: string } => {
  const t = text.trim();
  if (/^[-−]/.test(t)) return { sign: -1, rest: t.slice(1).trim() };
  return { sign: 1, rest: t.startsWith('+') ? t.slice(1).trim() : t };
};

/** A written length with its own unit or `factor` (mm per bare unit) → mm. A minus sign is read; whether it may stand is for the caller. */
export const parseLength = (text: string, factor: number): Parsed<number> => {
  if (text.length > 80) return refused('a length of at most 80 characters');
  const { sign, rest } = signed(text);
  const feet = /^(\d{1,6}) ?(?:'|′|’|ft)[ -]?(\d[^'′’]*)$/.exec(rest);
  if (feet !== null) {
    const [, ft = '', more = ''] = feet;
    const inches = splitUnit(more);
    const tail = parseNumber(inches.number);
    if (!tail.ok) return tail;
    return within(sign * (Number(ft) * 12 * MM_PER_INCH + tail.value * MM_PER_INCH));
  }
  const split = splitUnit(rest);
  if (split.number === '') return refused('a length such as 3.531, 3 17/32 or 89.7 mm');
  const n = parseNumber(split.number);
  if (!n.ok)
    return unknownUnit(split.number)
      ? refused(`one of the units mm, cm, µm, in, ", thou, ft or ' after the number`)
      : n;
  return within(sign * n.value * (split.factor ?? factor));
};

/** A number that reads, with letters behind it that name no unit. */
const unknownUnit = (text: string): boolean => {
  const letters = /(?<![a-zµ])[a-zµ]+$/i.exec(text);
  return letters !== null && parseNumber(text.slice(0, letters.index)).ok;
};

const within = (mm: number): Parsed<number> =>
  Math.abs(mm) <= LONGEST ? parsed(mm) : refused('a length of no more than 100 m');

const plusMinusSign = /±|\+\/-|\+-/;

/**
 * `61.2 ± 0.2 mm`: a length and its ±, mm. A unit written once, after the ±, serves both;
 * a ± with no unit takes the unit of its value. The ± must be above zero.
 */
export const parseLengthMeasure = (text: string, unit: LengthUnit): Parsed<Measure> => {
  const parts = text.split(plusMinusSign);
  const bare = perUnit(unit);
  const [head = '', tail, extra] = parts;
  if (extra !== undefined) return refused('one ± only');
  if (tail === undefined) {
    const v = parseLength(head, bare);
    return v.ok ? parsed({ value: v.value, plusMinus: null }) : v;
  }
  const headUnit = splitUnit(head).factor;
  const tailUnit = splitUnit(tail).factor;
  const v = parseLength(head, tailUnit ?? bare);
  if (!v.ok) return v;
  const u = parseLength(tail, headUnit ?? bare);
  if (!u.ok) return refused(`after the ±, ${u.expected}`);
  if (!(u.value > 0)) return refused('a ± above zero');
  return parsed({ value: v.value, plusMinus: u.value });
};

/** `± 0.002 in` alone. */
export const parseLengthBand = (text: string, unit: LengthUnit): Parsed<number> => {
  const t = text.trim().replace(/^(?:±|\+\/-|\+-)/, '');
  const u = parseLength(t, perUnit(unit));
  if (!u.ok) return u;
  return u.value > 0 ? u : refused('a ± above zero');
};

/** `12 .. 30 mm`: two lengths, the lesser first; a unit written once, at the end, serves both. */
export const parseLengthRange = (text: string, unit: LengthUnit): Parsed<readonly [number, number]> => {
  const [from = '', to, extra] = text.split('..');
  if (to === undefined || extra !== undefined) return refused('a range such as 12 .. 30 mm');
  const bare = perUnit(unit);
  const a = parseLength(from, splitUnit(to).factor ?? bare);
  if (!a.ok) return a;
  const b = parseLength(to, splitUnit(from).factor ?? bare);
  if (!b.ok) return b;
  return a.value < b.value ? parsed([a.value, b.value]) : refused('the lesser end of the range first');
};
