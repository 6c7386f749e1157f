import { type LengthUnit, DEGREE, perUnit, splitUnit } from '@fayplate/core';

const decimals = (text: string): number | null => {
  const over = /[/⁄] ?(\d{1,6})$/.exec(text);
  if (over !== null) return Number(over[1]) > 0 ? 1 / Number(over[1]) : null;
  if (!/^[\d½¼¾⅛⅜⅝⅞ .-]*$/.test(text)) return null;
  const dot = text.lastIndexOf('.');
  return dot === -1 ? 1 : 10 ** -(text.length - dot - 1);
};

/** The last place that a number is written to, mm or radians: `4.50` in → 0.254 mm, `4 1/8` in → 3.175 mm; null where it cannot be told. */
export const writtenStep = (text: string, measures: 'length' | 'angle' | 'place', job: LengthUnit): number | null => {
  if (measures === 'place') {
    const steps = (text.replace(/^\(/, '').split(')')[0] ?? '')
      .split(',')
      .map((part) => writtenStep(part.replace(/^\s*[-−+]/, ''), 'length', job));
    return steps.every((s) => s !== null) ? Math.min(...steps) : null;
  }
  if (measures === 'angle') {
    const plain = /^([\d.]+) ?(?:°|deg|degrees?)?$/.exec(text.trim());
    const step = plain === null ? null : decimals(plain[1] ?? '');
    return step === null ? null : step * DEGREE;
  }
  const { number, factor } = splitUnit(text);
  const step = /['′’]/.test(number) ? null : decimals(number);
  return step === null ? null : step * (factor ?? perUnit(job));
};
