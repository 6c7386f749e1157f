import { DEGREE, MM_PER_INCH } from '@fayplate/core';
import { type Misfit, type Slip, isFraction, writtenValue } from './written.js';

/**
 * A step by which scales are misread: the marks and turns of rules, verniers, micrometers and protractors (common
 * practice).
 */
interface Mark {
  readonly size: number;
  readonly name: string;
  readonly weight: number;
}

const inch = (size: number, name: string, weight: number): Mark => ({ size: size * MM_PER_INCH, name, weight });

const fractionMarks: readonly Mark[] = [
  inch(1 / 16, '1/16 in', 4),
  inch(1 / 32, '1/32 in', 3),
  inch(1 / 64, '1/64 in', 2),
  inch(1 / 8, '1/8 in', 2),
  inch(1 / 4, '1/4 in', 1),
  inch(1 / 2, '1/2 in', 1),
  inch(1, 'a whole inch', 3),
];

const decimalInchMarks: readonly Mark[] = [
  inch(0.1, '0.1 in', 4),
  inch(0.025, '0.025 in (one turn of the thimble, one mark of the vernier)', 3),
  inch(1, 'a whole inch', 3),
  inch(1 / 16, '1/16 in', 1),
  inch(0.01, '0.01 in', 1),
];

const millimetreMarks: readonly Mark[] = [
  { size: 10, name: '10 mm', weight: 4 },
  { size: 1, name: '1 mm', weight: 4 },
  { size: 5, name: '5 mm', weight: 1 },
  { size: 0.5, name: '0.5 mm (one turn of the thimble)', weight: 2 },
  { size: 0.1, name: '0.1 mm', weight: 1 },
  { size: 100, name: '100 mm', weight: 1 },
];

const angleMarks: readonly Mark[] = [
  { size: 10 * DEGREE, name: '10°', weight: 4 },
  { size: 5 * DEGREE, name: '5°', weight: 2 },
  { size: DEGREE, name: '1°', weight: 2 },
];

const marksOf = (misfit: Misfit): readonly Mark[] => {
  const { unit, text } = misfit.reading;
  if (unit === null) return angleMarks;
  if (unit === 'mm') return millimetreMarks;
  const written = writtenValue(text);
  return written !== null && isFraction(written) ? fractionMarks : decimalInchMarks;
};

/** One mark of the scale too many or too few. */
export const misreadMarks = (misfit: Misfit): readonly Slip[] => {
  const error = misfit.value - misfit.expected;
  return marksOf(misfit).map((mark) => ({
    says: `${mark.name} misread`,
    left: Math.abs(error) - mark.size,
    weight: mark.weight,
  }));
};
