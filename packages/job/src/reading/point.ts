import {
  type LengthUnit,
  type Parsed,
  type Point,
  parseLength,
  parsed,
  perUnit,
  refused,
  splitUnit,
} from '@fayplate/core';

export interface ReadPlace {
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
    return refused('two lengths parted by one comma, such as (12.5, -40), with decimal points');
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
