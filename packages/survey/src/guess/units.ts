import { DEGREE, MM_PER_INCH } from '@fayplate/core';
import type { Misfit, Slip } from './written.js';

/** The number was read in one unit and written in the other. */
export const wrongUnit = (misfit: Misfit): readonly Slip[] => {
  const { value, expected } = misfit;
  if (misfit.reading.unit === 'in') {
    return [{ says: 'mm typed as inches', left: value / MM_PER_INCH - expected, weight: 3 }];
  }
  if (misfit.reading.unit === 'mm') {
    return [{ says: 'inches typed as mm', left: value * MM_PER_INCH - expected, weight: 3 }];
  }
  return [];
};

/** The decimal point is one or two places off: 45.2 for 4.52. */
export const wrongPoint = ({ value, expected, reading }: Misfit): readonly Slip[] =>
  reading.unit === null || reading.point !== null
    ? []
    : [10, 100, 1 / 10, 1 / 100].map((by) => ({
        says: 'the decimal point in the wrong place',
        left: value * by - expected,
        weight: 1,
      }));

/**
 * A stated diameter in the other unit, or with its decimal point misplaced: the unit that it was typed in is not known
 * here.
 */
export const wrongSize = (value: number, expected: number): readonly Slip[] => [
  { says: 'mm typed as inches', left: value / MM_PER_INCH - expected, weight: 3 },
  { says: 'inches typed as mm', left: value * MM_PER_INCH - expected, weight: 3 },
  ...[10, 1 / 10].map((by) => ({
    says: 'the decimal point in the wrong place',
    left: value * by - expected,
    weight: 1,
  })),
  { says: 'the radius given for the diameter', left: 2 * value - expected, weight: 2 },
];

/** A protractor carries two scales: the angle may be read from the wrong one, or from the square position. */
export const wrongScale = (misfit: Misfit): readonly Slip[] => {
  if (misfit.reading.kind !== 'angle') return [];
  return [
    {
      says: 'the angle read from the other side (180° less it)',
      left: Math.PI - misfit.value - misfit.expected,
      weight: 4,
    },
    {
      says: 'the angle read from the square (90° less it)',
      left: 90 * DEGREE - misfit.value - misfit.expected,
      weight: 2,
    },
  ];
};
