import { type Speech, exactFraction, formatLength, MM_PER_INCH } from '@fayplate/core';
import type { Family } from '../fit/construction.js';

/** Weight of each way to choose a size: seven ways, equally likely until the readings speak. */
const EACH = 1 / 7;

/**
 * How a maker may have chosen a size: to an eighth, sixteenth, thirty-second or sixty-fourth of an inch, to a millimetre or half
 * a millimetre, or not to a round figure at all, all equally likely. A value on a step has prior mass weight · step · (density of
 * sizes there), so a coarse value, which lies on every finer step too, counts several times: 7 1/2 in has
 * (1/8 + 1/16 + 1/32 + 1/64) in / 7 against 1/64 in / 7 for 7 33/64. 'Coarse, even numbers are preferred' is this and no more.
 */
export const sizeFamilies: readonly Family[] = [
  ...[8, 16, 32, 64].map((parts) => ({ weight: EACH, step: MM_PER_INCH / parts, offset: 0, unit: 'in' as const })),
  ...[1, 0.5].map((step) => ({ weight: EACH, step, offset: 0, unit: 'mm' as const })),
];
export const freeSize = EACH;

/** Chance that a drawing keeps to one unit; else each size is chosen by itself. */
export const ONE_UNIT = 0.9;
/** Odds of either unit among round sizes, from the seven equal ways: four in inches, two in millimetres. */
export const unitShare = { in: 4 / 6, mm: 2 / 6 } as const;

/** A round size as its maker would write it: `7 1/2 in`, `190.5 mm`. */
export const sayRound = (mm: number, unit: 'in' | 'mm'): string => {
  const trimmed = (text: string): string => (text.includes('.') ? text.replace(/\.?0+$/, '') : text);
  return unit === 'in' ? `${exactFraction(mm) ?? trimmed(formatLength(mm, 'in'))} in` : `${trimmed(formatLength(mm, 'mm'))} mm`;
};

/** A size that is no round figure, about as fine as it is known. */
export const sayAbout = (mm: number, speech: Speech): string => `${formatLength(mm, speech.unit, speech.unit === 'in' ? 3 : 2)} ${speech.unit}`;
