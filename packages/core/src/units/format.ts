import { Fraction } from 'fraction.js';
import { type LengthUnit, MM_PER_INCH } from './length.js';

/** A decimal of so many places; −0 never shown. */
const fixed = (value: number, places: number): string => {
  const text = value.toFixed(places);
  return /^-0\.?0*$/.test(text) ? text.slice(1) : text;
};

/** mm → a decimal in the unit: mm to 0.001, inch to 0.0001 unless told; −0 never shown. */
export const formatLength = (mm: number, unit: LengthUnit, places = unit === 'in' ? 4 : 3): string =>
  fixed(unit === 'in' ? mm / MM_PER_INCH : mm, places);

/** Radians → degrees as a decimal of so many places, without the sign for degrees; −0 never shown. */
export const formatDegrees = (radians: number, places: number): string => fixed((radians * 180) / Math.PI, places);

/**
 * The nearest multiple of `step` (any unit): moves by no more than half a step, and a second rounding moves nothing.
 */
export const roundTo = (value: number, step: number): number => Math.round(value / step) * step;

/** Inches to the nearest 1/`parts`, in lowest terms: `3 17/32`; `parts` is a power of two. */
export const formatFraction = (mm: number, parts = 64): string => {
  const n = Math.round((mm / MM_PER_INCH) * parts);
  return new Fraction(n, parts).toFraction(true);
};

/** The fraction of an inch that this length is exactly (to 1e-9 in), or null. */
export const exactFraction = (mm: number, parts = 64): string | null => {
  const n = (mm / MM_PER_INCH) * parts;
  return Math.abs(n - Math.round(n)) < 1e-9 * parts ? formatFraction(mm, parts) : null;
};
