/** Outcome of reading a written value: the value, or what was expected in words that tell a person what to write. */
export type Parsed<T> = { readonly ok: true; readonly value: T } | { readonly ok: false; readonly expected: string };

/** A value that could be read. */
export const parsed = <T>(value: T): Parsed<T> => ({ ok: true, value });
/** A text that could not, with what was expected in its place. */
export const refused = (expected: string): Parsed<never> => ({ ok: false, expected });

/**
 * A value with its ±, the band that holds 95 times in 100 (coverage factor k = 2, JCGM 100); null where none was
 * written.
 */
export interface Measure {
  readonly value: number;
  readonly plusMinus: number | null;
}

/**
 * What is doubtful about a value that could be read all the same: its kind, for programs, and what would be expected.
 */
export interface Doubt {
  readonly code: 'wide-plus-minus' | 'plus-minus-unit';
  readonly expected: string;
}

/** A ± that is larger than its value. */
export const wide: Doubt = { code: 'wide-plus-minus', expected: 'a ± smaller than the value that it belongs to' };

const whole = /^\d{1,9}$/;
const decimal = /^(?:\d{1,9}(?:\.\d{0,30})?|\.\d{1,30})$/;
const fraction = /^(?:(\d{1,6})(?: +|-))?(\d{1,6}) ?[/⁄] ?(\d{1,6})$/;

/**
 * The fractions that have a sign of their own in Unicode, as they come from a phone's keyboard: the sign stands last.
 */
const vulgar: Readonly<Record<string, string>> = {
  '½': '1/2',
  '¼': '1/4',
  '¾': '3/4',
  '⅛': '1/8',
  '⅜': '3/8',
  '⅝': '5/8',
  '⅞': '7/8',
};
const withSign = /^(\d{1,6})?(?: +|-)?([½¼¾⅛⅜⅝⅞])$/;

const written = (text: string): string => {
  const m = withSign.exec(text.trim());
  return m === null ? text.trim() : `${m[1] === undefined ? '' : `${m[1]} `}${vulgar[m[2] ?? ''] ?? ''}`;
};

/**
 * A written number without sign or unit: `3.531`, `.5`, `3 17/32`, `3-17/32`, `17/32`, `3½`. A fraction is less than
 * one. Everything else is refused, with the reading that was likely meant.
 */
export const parseNumber = (text: string): Parsed<number> => {
  if (text.length > 60) return refused('a number of at most 60 characters');
  const t = written(text);
  if (whole.test(t) || decimal.test(t)) return parsed(Number(t));
  const f = fraction.exec(t);
  if (f === null) return refused(slipIn(t) ?? 'a number such as 3.531, 17/32 or 3 17/32');
  const [, units = '0', over = '', under = ''] = f;
  if (Number(under) === 0) return refused('a fraction over something other than zero');
  if (Number(over) >= Number(under)) return refused(lessThanOne(f[1], over, under));
  return parsed(Number(units) + Number(over) / Number(under));
};

/** `317/32` is more likely 3 17/32 with its space lost than a fraction that nobody writes. */
const lessThanOne = (units: string | undefined, over: string, under: string): string => {
  const n = Number(over);
  const d = Number(under);
  const rest = n % d === 0 ? '' : ` ${n % d}/${d}`;
  const mixed = `${Number(units ?? 0) + Math.floor(n / d)}${rest}`;
  if (units !== undefined) return `a fraction less than one after the whole number; this comes to ${mixed}`;
  const cuts = Array.from({ length: over.length - 1 }, (_, i) => [over.slice(0, i + 1), over.slice(i + 1)] as const);
  const [cut] = cuts.filter(([, tail]) => !tail.startsWith('0') && Number(tail) < d);
  return cut === undefined
    ? `a fraction less than one: ${mixed}`
    : `a fraction less than one: ${cut[0]} ${cut[1]}/${under}, or ${mixed}`;
};

const reads = (text: string): boolean => {
  const n = fraction.exec(text);
  return decimal.test(text) || whole.test(text) || (n !== null && Number(n[2]) < Number(n[3]));
};

/** Slips of the pen and of other keyboards, and what each was likely meant for. */
const slips: readonly (readonly [RegExp, (t: string) => string, string])[] = [
  [/^\d{1,9} ?, ?\d{1,12}$/, (t) => t.replace(/ ?, ?/, '.'), 'a decimal point, not a comma'],
  [/^[\d./ -]*[oO][\doO./ -]*$/, (t) => t.replace(/o/gi, '0'), 'the figure 0, not the letter o'],
  [/^[\d./ -]*[lI|][\dlI|./ -]*$/, (t) => t.replace(/[lI|]/g, '1'), 'the figure 1, not the letter l'],
  [/^\d{1,3}(?:['’ _]\d{3})+(?:\.\d+)?$/, (t) => t.replace(/['’ _]/g, ''), 'no mark between thousands'],
  [/^\d+ ?\. ?\d+$/, (t) => t.replaceAll(' ', ''), 'no gap in a number'],
  [/^[½¼¾⅛⅜⅝⅞] ?\d{1,6}$/, (t) => `${t.slice(1).trim()}${t.slice(0, 1)}`, 'the fraction behind the whole number'],
  [/^\d+[½¼¾⅛⅜⅝⅞]\d+$/, (t) => t.slice(0, t.search(/[½¼¾⅛⅜⅝⅞]/) + 1), 'nothing behind the fraction'],
  [/^[\d ]+[\\:÷]\d+$/, (t) => t.replace(/[\\:÷]/, '/'), 'a stroke in a fraction'],
  [/^[–—]\d/, (t) => `-${t.slice(1)}`, 'a minus sign, not a dash'],
  [/^\d+\.\d*\.\d*$/, (t) => t.replace(/\.(?=[^.]*$)/, ''), 'one decimal point'],
];

/**
 * A slip of the pen or of another keyboard, with the reading that was likely meant; null where it is none that is
 * known.
 */
export const slipIn = (text: string): string | null => {
  const t = written(text);
  if (/^[\d.]+e[+-]?\d+$/i.test(t)) return 'a plain number, without an exponent';
  for (const [slip, cure, says] of slips) {
    if (!slip.test(t)) continue;
    const cured = cure(t);
    if (reads(written(cured)) || cured.startsWith('-')) return `${says}: ${cured}`;
  }
  return null;
};
