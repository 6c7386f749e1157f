import { type LengthUnit, formatLength } from '@fayplate/core';

/** How numbers stand on the sheet: ASME Y14.5 leaves the zero before an inch decimal out, and ISO 129-1 keeps it. */
export interface Numbers {
  readonly unit: LengthUnit;
  readonly asme: boolean;
}

/** A number to so many places, without its unit. */
export const numeral = (mm: number, { unit, asme }: Numbers, places = unit === 'in' ? 4 : 3): string => {
  const plain = formatLength(mm, unit, places);
  return asme && unit === 'in' ? plain.replace(/^(-?)0\./, '$1.') : plain;
};

/** A size to what a shop reads off: 0.01 mm, 0.001 in. */
export const size = (mm: number, n: Numbers): string => numeral(mm, n, n.unit === 'in' ? 3 : 2);

/** Limits of size, the least first; one number where both are the same. */
export const limits = ([least, most]: readonly [number, number], n: Numbers, places?: number): string => {
  const [a, b] = [numeral(least, n, places), numeral(most, n, places)];
  return a === b ? a : `${a} – ${b}`;
};
