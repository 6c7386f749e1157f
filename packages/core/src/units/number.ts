import { type Parsed, parsed, refused } from './quantity.js';

const whole = /^\d{1,9}$/;
const decimal = /^(?:\d{1,9}(?:\.\d{0,20})?|\.\d{1,20})$/;
const fraction = /^(?:(\d{1,6})(?: +|-))?(\d{1,6}) ?[/⁄] ?(\d{1,6})$/;

/** The fractions that have a sign of their own in Unicode, as they come from a phone's keyboard. */
const vulgar: Readonly<Record<string, string>> = {
  '½': '1/2',
  '¼': '1/4',
  '¾': '3/4',
  '⅛': '1/8',
  '⅜': '3/8',
  '⅝': '5/8',
  '⅞': '7/8',
};

/**
 * A written number without sign or unit: `3.531`, `.5`, `3 17/32`, `3-17/32`, `17/32`, `3½`.
 * A decimal comma, an exponent and a fraction over zero are refused with advice.
 */
export const parseNumber = (text: string): Parsed<number> => {
  if (text.length > 60) return refused('a number of at most 60 characters');
  const t = text
    .trim()
    .replace(/(\d?)([½¼¾⅛⅜⅝⅞])/g, (_, d: string, f: string) =>
      d === '' ? (vulgar[f] ?? f) : `${d} ${vulgar[f] ?? f}`,
    );
  if (whole.test(t) || decimal.test(t)) return parsed(Number(t));
  const f = fraction.exec(t);
  if (f !== null) {
    const [, units = '0', over, under] = f;
    if (Number(under) === 0) return refused('a fraction over something other than zero');
    return parsed(Number(units) + Number(over) / Number(under));
  }
  if (/^\d{1,9},\d{1,12}$/.test(t)) return refused(`a decimal point, not a comma: ${t.replace(',', '.')}`);
  if (/^[\d.]+e[+-]?\d+$/i.test(t)) return refused('a plain number, without an exponent');
  return refused('a number such as 3.531, 17/32 or 3 17/32');
};
