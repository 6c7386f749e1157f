import { MM_PER_INCH } from '@fayplate/core';
import { isoFit } from '../fits/limits.js';
import type { Table } from '../source.js';

/** Diameters that hardened dowel pins are sold in, mm. */
export const metricDowels: Table<number> = {
  source: 'ISO 8734 (diameter m6), from memory',
  rows: [1, 1.5, 2, 2.5, 3, 4, 5, 6, 8, 10, 12, 16, 20],
};

/** Inches. */
export const inchDowels: Table<number> = {
  source: 'ASME B18.8.2 (standard series 0.0002 in over nominal, ± 0.0001 in), from memory',
  rows: [1 / 16, 3 / 32, 1 / 8, 3 / 16, 1 / 4, 5 / 16, 3 / 8, 7 / 16, 1 / 2, 5 / 8, 3 / 4, 7 / 8, 1],
};

/** Limits of a dowel's own diameter, mm, or null where no dowel of that nominal diameter (mm) is listed. */
export const dowelLimits = (
  diameter: number,
): { readonly least: number; readonly most: number; readonly source: string } | null => {
  if (metricDowels.rows.some((d) => Math.abs(d - diameter) < 1e-6)) {
    const limits = isoFit('m6', diameter);
    return limits === null ? null : { least: limits.least, most: limits.most, source: metricDowels.source };
  }
  return inchDowels.rows.some((d) => Math.abs(d * MM_PER_INCH - diameter) < 1e-4)
    ? { least: diameter + 0.0001 * MM_PER_INCH, most: diameter + 0.0003 * MM_PER_INCH, source: inchDowels.source }
    : null;
};
