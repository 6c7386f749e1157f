import {
  DEGREE,
  type LengthUnit,
  type Parsed,
  type Point,
  parseLength,
  parsed,
  perUnit,
  refused,
  splitUnit,
} from '@fayplate/core';

interface ReadPlace {
  readonly point: Point;
  /** mm per unit as written: by both numbers, or once behind the bracket; null where the job's unit was meant. */
  readonly factor: number | null;
  /** One number carries a unit and the other does not. */
  readonly uneven: boolean;
}

/**
 * `(x, y)` of a bench frame, each with its own unit or with one behind the bracket; `shared` (mm per unit) stands in
 * where neither is written.
 */
export const parsePlace = (text: string, unit: LengthUnit, shared: number | null = null): Parsed<ReadPlace> => {
  const m = /^\(([^()]*)\)([^()]*)$/.exec(text.trim());
  if (m === null) return refused('a place in brackets, such as (12.5, -40)');
  const [x, y, extra] = (m[1] ?? '').split(',');
  if (x === undefined || y === undefined || extra !== undefined)
    return refused('two lengths separated by one comma, such as (12.5, -40), with decimal points');
  const behind = (m[2] ?? '').trim();
  const after = splitUnit(`1 ${behind}`);
  if (behind !== '' && (after.factor === null || after.number !== '1'))
    return refused('a unit or nothing after the bracket');
  const units = [splitUnit(x).factor, splitUnit(y).factor] as const;
  const fallback = after.factor ?? (units[0] === null && units[1] === null ? shared : null) ?? perUnit(unit);
  const px = parseLength(x, fallback);
  if (!px.ok) return px;
  const py = parseLength(y, fallback);
  if (!py.ok) return py;
  const even = (units[0] === null) === (units[1] === null);
  return parsed({
    point: { x: px.value, y: py.value },
    factor: after.factor ?? (even ? units[0] : null),
    uneven: !even && after.factor === null,
  });
};

const decimals = (text: string): number | null => {
  const over = /[/⁄] ?(\d{1,6})$/.exec(text);
  if (over !== null) return Number(over[1]) > 0 ? 1 / Number(over[1]) : null;
  if (!/^[\d½¼¾⅛⅜⅝⅞ .-]*$/.test(text)) return null;
  const dot = text.lastIndexOf('.');
  return dot === -1 ? 1 : 10 ** -(text.length - dot - 1);
};

/**
 * The last place that a number is written to, mm or radians: `4.50` in → 0.254 mm, `4 1/8` in → 3.175 mm; null where it
 * cannot be told.
 */
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
