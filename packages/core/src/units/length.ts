import { type Doubt, type Measure, type Parsed, parseNumber, parsed, refused, slipIn, wide } from './number.js';

/** The two units that a job may be in. */
export type LengthUnit = 'mm' | 'in';
/** The international inch of 1959, mm; exact. */
export const MM_PER_INCH = 25.4;
/** mm in one of the unit. */
export const perUnit = (unit: LengthUnit): number => (unit === 'in' ? MM_PER_INCH : 1);
/** Longest length that a job may state, mm (100 m). */
export const LONGEST = 100_000;

/**
 * A unit as written behind a number, and mm in one of it. No two differ in one letter: a slip in a unit is refused,
 * never another unit.
 */
const suffixes: readonly (readonly [RegExp, number])[] = [
  [/ ?mm$/i, 1],
  [/ ?microns?$/i, 0.001],
  [/ ?(?:inches|inch|in\.?)$/i, MM_PER_INCH],
  [/ ?(?:"|″|”|'')$/, MM_PER_INCH],
  [/ ?(?:thousandths|thou)$/i, MM_PER_INCH / 1000],
  [/ ?(?:feet|foot|ft)$/i, 12 * MM_PER_INCH],
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

/**
 * `2' 3 1/2"`, `2'-6"`, `2 ft 3`: whole feet, then inches below 12 with their mark, or parted from the feet; null where
 * no feet are written.
 */
const feetAndInches = (text: string): Parsed<number> | null => {
  const mark = /['′’]|ft/i.exec(text);
  if (mark === null || text.startsWith("''", mark.index)) return null;
  const ft = text.slice(0, mark.index);
  const more = text.slice(mark.index + mark[0].length);
  const feet = ft.trim();
  const quoted = /^[‘'’]([^‘'’]+)[‘'’]$/.exec(text.trim())?.[1];
  if (quoted !== undefined) return refused(`the length without quotes: ${quoted}`);
  if (more.trim() === '') {
    if (mark[0].length > 1) return null;
    // One stroke more or less would make inches of feet.
    return refused(`feet as ${feet} ft or ${feet}' 0", inches as ${feet}"`);
  }
  if (!/^\d{1,6}$/.test(feet)) return refused(`whole feet, then inches, such as 2' 3 1/2"`);
  const { number, factor } = splitUnit(more.replace(/^ *-? */, ''));
  if (factor !== null && factor !== MM_PER_INCH) return refused(`inches after the feet, such as ${feet}' 3 1/2"`);
  if (factor === null && !/^[ -]/.test(more))
    return refused(
      /^\d{3}$/.test(more) ? `no mark between thousands: ${feet}${more}` : `feet and inches as ${feet}' ${more}"`,
    );
  const inches = parseNumber(number);
  if (!inches.ok) return inches;
  if (inches.value >= 12) return refused('inches below 12 after the feet');
  return parsed((Number(feet) * 12 + inches.value) * MM_PER_INCH);
};

/**
 * A written length with its own unit or `factor` (mm per bare unit) → mm. A minus sign is read; whether it may stand is
 * for the caller.
 */
export const parseLength = (text: string, factor: number): Parsed<number> => {
  if (text.length > 80) return refused('a length of at most 80 characters');
  const { sign, rest } = signed(text);
  const feet = feetAndInches(rest);
  if (feet !== null) return feet.ok ? within(sign * feet.value) : feet;
  const split = splitUnit(rest);
  if (split.number === '') return refused('a length such as 3.531, 3 17/32 or 89.7 mm');
  const n = parseNumber(split.number);
  if (!n.ok) return slipIn(split.number) === null ? (strangeUnit(split.number) ?? n) : n;
  return within(sign * n.value * (split.factor ?? factor));
};

/**
 * Units that are one letter away from mm, or from each other: how many mm one is, with the places to move the point.
 */
const foreign: readonly (readonly [RegExp, number])[] = [
  [/ ?cm$/i, 1],
  [/ ?[uµμ]m$/i, -3],
  [/ ?m$/i, 3],
];

/** A number that reads, with letters behind it that name no unit of a job. */
const strangeUnit = (text: string): Parsed<never> | null => {
  for (const [unit, places] of foreign) {
    const n = unit.test(text) ? parseNumber(text.replace(unit, '')) : null;
    if (n?.ok === true)
      return refused(
        'a length in mm, so that one wrong letter cannot change the unit: ' +
          `${Number((n.value * 10 ** places).toPrecision(12))} mm`,
      );
  }
  const letters = /(?<![a-zµ])[a-zµ]+$/i.exec(text);
  return letters !== null && parseNumber(text.slice(0, letters.index)).ok
    ? refused(`one of the units mm, in, ", thou, ft or micron after the number`)
    : null;
};

const within = (mm: number): Parsed<number> =>
  Math.abs(mm) <= LONGEST ? parsed(mm) : refused('a length of no more than 100 m');

const plusMinusSign = /±|\+\/-|\+-/;

/** A ± of this share of its value says that the unit behind the ± was not meant for the value. */
const ABSURD = 0.5;
/** Units that a ± is written in and a value hardly ever, mm. */
const isSmall = (factor: number): boolean => factor < 0.1;
/** Longest value, mm, that is taken to be in the file's unit before a ± in thou or µm. */
const BENCH = 2500;

/**
 * mm in one of the value's unit where only the ± has one: the unit serves both, as in `61.2 ± 0.2 mm`, but not where
 * the ± would then be as large as the value, nor for a unit of small things: `3.5 ± 2 thou` in inches is 3.5 in.
 */
const unitOfValue = (head: string, tail: string, bare: number, behind: number | null): number => {
  if (behind === null || behind === bare) return bare;
  const value = parseLength(head, 1);
  const plusMinus = parseLength(tail, 1);
  if (!value.ok || !plusMinus.ok) return behind;
  const size = Math.abs(value.value);
  const own = size * bare;
  if (isSmall(behind)) return own <= BENCH ? bare : behind;
  return plusMinus.value >= ABSURD * size * behind && plusMinus.value < ABSURD * own ? bare : behind;
};

const measured = (text: string, unit: LengthUnit) => {
  const parts = text.split(plusMinusSign);
  const [head = '', tail] = parts;
  const bare = perUnit(unit);
  const headUnit = parseLength(head, 0).ok && /['′’]/.test(head.trim()) ? MM_PER_INCH : splitUnit(head).factor;
  const tailUnit = tail === undefined ? null : splitUnit(tail).factor;
  const factor = tail === undefined || headUnit !== null ? bare : unitOfValue(head, tail, bare, tailUnit);
  return { parts: parts.length, head, tail, headUnit, tailUnit, bare, factor };
};

/**
 * `61.2 ± 0.2 mm`: a length and its ±, mm. A unit written once, after the ±, serves both, unless that is out of all
 * proportion; a ± with no unit takes the unit of its value. The ± must be above zero.
 */
export const parseLengthMeasure = (text: string, unit: LengthUnit): Parsed<Measure> => {
  const { parts, head, tail, headUnit, bare, factor } = measured(text, unit);
  if (parts > 2) return refused('one ± only');
  const v = parseLength(head, factor);
  if (!v.ok) return v;
  if (tail === undefined) return parsed({ value: v.value, plusMinus: null });
  const u = parseLength(tail, headUnit ?? bare);
  if (!u.ok) return refused(`after the ±, ${u.expected}`);
  if (!(u.value > 0)) return refused('a ± above zero');
  return parsed({ value: v.value, plusMinus: u.value });
};

/**
 * What is doubtful about a length and its ±: the unit that the value was taken in, or a ± larger than the value. Null:
 * nothing.
 */
export const doubtOfMeasure = (text: string, unit: LengthUnit): Doubt | null => {
  const { head, tail, headUnit, tailUnit, bare, factor } = measured(text, unit);
  const m = parseLengthMeasure(text, unit);
  if (!m.ok || tail === undefined || m.value.plusMinus === null) return null;
  if (headUnit === null && tailUnit !== null && factor === bare && tailUnit !== bare)
    return {
      code: 'plus-minus-unit',
      expected: `a unit on the value as well: ${head.trim()} is taken in ${unit}, the unit of the file, not in that of the ±`,
    };
  if (m.value.plusMinus > Math.abs(m.value.value)) return wide;
  return null;
};

/** `± 0.002 in` alone → mm, above zero. */
export const parseLengthBand = (text: string, unit: LengthUnit): Parsed<number> => {
  const t = text.trim().replace(/^(?:±|\+\/-|\+-)/, '');
  const u = parseLength(t, perUnit(unit));
  if (!u.ok) return u;
  return u.value > 0 ? u : refused('a ± above zero');
};

/** `12 .. 30 mm` → its two ends as written, or what was expected. */
export const splitRange = (text: string, example: string): Parsed<readonly [string, string]> => {
  const dots = [...text.matchAll(/\.{2,}/g)];
  const [mark] = dots;
  if (mark === undefined || dots.length > 1) return refused(`a range such as ${example}`);
  const [from, to] = [text.slice(0, mark.index), text.slice(mark.index + mark[0].length)];
  if (mark[0].length > 2) return refused(`two dots between the ends: ${from.trim()} .. ${to.trim()}`);
  return parsed([from, to]);
};

/** `12 .. 30 mm`: two lengths, the lesser first; a unit written once, at the end, serves both. */
export const parseLengthRange = (text: string, unit: LengthUnit): Parsed<readonly [number, number]> => {
  const ends = splitRange(text, '12 .. 30 mm');
  if (!ends.ok) return ends;
  const [from, to] = ends.value;
  const bare = perUnit(unit);
  const a = parseLength(from, splitUnit(to).factor ?? bare);
  if (!a.ok) return a;
  const b = parseLength(to, splitUnit(from).factor ?? bare);
  if (!b.ok) return b;
  return a.value < b.value ? parsed([a.value, b.value]) : refused('the lesser end of the range first');
};
