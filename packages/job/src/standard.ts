import { type LengthUnit, formatLength } from '@fayplate/core';
import type { Face, SizeLimits } from './types.js';

/** A diameter that was measured on a standard face, beside what the standard allows; mm. */
export interface AgainstStandard {
  readonly feature: string;
  readonly value: number;
  readonly plusMinus: number;
  readonly limits: SizeLimits;
  /** The reading as written; null where the diameter was stated with the feature. */
  readonly at: string | null;
}

/**
 * Every diameter read or stated on a standard face, in the order of the file; empty where the face names no standard.
 */
export const againstStandard = (face: Face): readonly AgainstStandard[] => {
  const standard = face.standard;
  if (standard === null) return [];
  const stated = face.features.flatMap((f): readonly AgainstStandard[] => {
    const limits = standard.limits.get(f.id);
    if (limits === undefined || f.diameter === null || f.diameterFrom !== 'job') return [];
    const middle = (limits.least + limits.most) / 2;
    const own = Math.abs(f.diameter.value - middle) > 1e-9 || f.diameter.plusMinus !== (limits.most - limits.least) / 2;
    return own
      ? [{ feature: f.id, value: f.diameter.value, plusMinus: f.diameter.plusMinus ?? 0, limits, at: null }]
      : [];
  });
  const read = face.readings.flatMap((r): readonly AgainstStandard[] => {
    const [feature = ''] = r.features;
    const limits = standard.limits.get(feature);
    if (r.kind !== 'dia' || r.aside || limits === undefined) return [];
    return [{ feature, value: r.value, plusMinus: r.plusMinus, limits, at: r.text }];
  });
  return [...stated, ...read];
};

/**
 * `130 j6 (129.989 to 130.014 mm)`, `12 mm (11.500 to 12.270 mm)`: a fit by its name in mm, all else in the job's unit.
 */
export const sayLimits = ({ nominal, least, most, fit }: SizeLimits, unit: LengthUnit): string => {
  const named =
    fit === null ? `${Number(formatLength(nominal, unit))} ${unit}` : `${Number(formatLength(nominal, 'mm'))} ${fit}`;
  return `${named} (${formatLength(least, unit)} to ${formatLength(most, unit)} ${unit})`;
};
