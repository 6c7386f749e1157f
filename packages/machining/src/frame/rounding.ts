import { type LengthUnit, MM_PER_INCH, type Point, perUnit, roundTo } from '@fayplate/core';

/** Finest place that a table shows: 0.001 mm, 0.0001 in. */
export const finest = (unit: LengthUnit): number => (unit === 'in' ? 0.0001 * MM_PER_INCH : 0.001);

/** Decimal places in which a table in this unit is printed. */
export const placesIn = (unit: LengthUnit): number => (unit === 'in' ? 4 : 3);

/** A length as it is set on the machine: a multiple of its step, as the table prints it, mm. */
export const asSet = (mm: number, step: number, unit: LengthUnit): number => {
  const printed = Number((roundTo(mm, step) / perUnit(unit)).toFixed(placesIn(unit)));
  return (Object.is(printed, -0) ? 0 : printed) * perUnit(unit);
};

export const setPoint = (p: Point, step: number, unit: LengthUnit): Point => ({
  x: asSet(p.x, step, unit),
  y: asSet(p.y, step, unit),
});
