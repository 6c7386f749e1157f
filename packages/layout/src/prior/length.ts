import { MM_PER_INCH, type Speech, exactFraction, formatLength } from '@fayplate/core';
import type { Family } from '../fit/construction.js';

/** log n!, by sums: n is a count of holes or places. */
export const logFactorial = (n: number): number => {
  let s = 0;
  for (let k = 2; k <= n; k++) s += Math.log(k);
  return s;
};

export const logChoose = (n: number, k: number): number => logFactorial(n) - logFactorial(k) - logFactorial(n - k);

/** log Σ exp, without overflow; −∞ for none. */
export const logSum = (logs: readonly number[]): number => {
  const most = Math.max(...logs, Number.NEGATIVE_INFINITY);
  if (most === Number.NEGATIVE_INFINITY) return most;
  return most + Math.log(logs.reduce((s, l) => s + Math.exp(l - most), 0));
};

export const gcd = (a: number, b: number): number => (b === 0 ? a : gcd(b, a % b));
export const lcm = (a: number, b: number): number => (a / gcd(a, b)) * b;

/** Log of the number of ways to match features in p pairs with m left over. */
export const logPairings = (p: number, m: number): number =>
  logFactorial(2 * p + m) - logFactorial(m) - logFactorial(p) - p * Math.log(2);

/** Weight of each way to choose a size: seven ways, equally likely until the readings speak. */
const EACH = 1 / 7;
/** Part of each unit's weight that goes to sizes that are coarse in it, each of three steps alike. */
const COARSE = 0.1;

const ways = (unit: 'in' | 'mm', fine: readonly number[], coarse: readonly number[]): readonly Family[] => [
  ...fine.map((step) => ({ weight: (1 - COARSE) * EACH, step, offset: 0, unit })),
  ...coarse.map((step) => ({ weight: (COARSE * EACH * fine.length) / coarse.length, step, offset: 0, unit })),
];

/**
 * How a maker may have chosen a size: to an eighth, sixteenth, thirty-second or sixty-fourth of an inch, to a
 * millimetre or half a millimetre, or not to a round figure at all, all equally likely; but one round size in ten, in
 * either unit, was chosen among the coarse ones alone: quarters, halves and whole inches, or fives, tens and
 * twenty-fives of millimetres. A value on a step has prior mass weight · step · (density of sizes there), so a coarse
 * value, which lies on every finer step too, counts several times: 7 1/2 in has (1/8 + 1/16 + 1/32 + 1/64) in · 0.9 / 7
 * from the fine steps and (1/4 + 1/2) in · 0.4 / 21 from the coarse, against 1/64 in · 0.9 / 7 for 7 33/64. 'Coarse,
 * even numbers are preferred' is this and no more. What it does is seen where no caliper can tell two sizes apart: 100
 * mm and 3 15/16 in, 0.01 mm from each other, stand 62 : 38, and would stand 35 : 65 without the coarse tenth. It costs
 * a maker who never heeds it hardly anything (the bench prints it): a tenth is about as much as leaves the sizes of the
 * seven equal ways told as often as before.
 */
export const sizeFamilies: readonly Family[] = [
  ...ways(
    'in',
    [8, 16, 32, 64].map((parts) => MM_PER_INCH / parts),
    [4, 2, 1].map((parts) => MM_PER_INCH / parts),
  ),
  ...ways('mm', [1, 0.5], [5, 10, 25]),
];
export const freeSize = EACH;

/** Chance that a drawing keeps to one unit; else each size is chosen by itself. */
export const ONE_UNIT = 0.9;
/** Odds of either unit among round sizes, from the seven equal ways: four in inches, two in millimetres. */
export const unitShare = { in: 4 / 6, mm: 2 / 6 } as const;

/** A round size as its maker would write it: `7 1/2 in`, `190.5 mm`. */
export const sayRound = (mm: number, unit: 'in' | 'mm'): string => {
  const trimmed = (text: string): string =>
    text.includes('.') ? text.replace(/(?<!0)0+$/, '').replace(/\.$/, '') : text;
  return unit === 'in'
    ? `${exactFraction(mm) ?? trimmed(formatLength(mm, 'in'))} in`
    : `${trimmed(formatLength(mm, 'mm'))} mm`;
};

/** A size that is no round figure, about as fine as it is known. */
export const sayAbout = (mm: number, speech: Speech): string =>
  `${formatLength(mm, speech.unit, speech.unit === 'in' ? 3 : 2)} ${speech.unit}`;

/**
 * Steps that coordinates may have been set out in, with the chance of each: what is scribed by rule comes before what
 * only a machine sets out.
 */
export const gridSteps: readonly { readonly step: number; readonly unit: 'in' | 'mm'; readonly chance: number }[] = [
  { step: MM_PER_INCH / 8, unit: 'in', chance: 0.22 },
  { step: MM_PER_INCH / 16, unit: 'in', chance: 0.25 },
  { step: MM_PER_INCH / 32, unit: 'in', chance: 0.12 },
  { step: MM_PER_INCH / 64, unit: 'in', chance: 0.03 },
  { step: 1, unit: 'mm', chance: 0.25 },
  { step: 0.5, unit: 'mm', chance: 0.1 },
  { step: 0.25, unit: 'mm', chance: 0.03 },
];
