import { swappedDigits } from './digits.js';
import { wrongKind } from './kinds.js';
import { misreadMarks } from './marks.js';
import { wrongFeatures } from './pairs.js';
import type { Misfit, Slip } from './slip.js';
import { wrongPoint, wrongScale, wrongSize, wrongUnit } from './units.js';

/** Weight of 'something else', whose error may have any size up to `BREADTH` either way: mm, or radians for an angle. */
const ELSE = 8;
const BREADTH = { length: 25, angle: 0.5 } as const;
/** A guess is made only where it is this likely beside all the others together (a judgement: three to one). */
const LIKELY = 0.75;

const density = (left: number, sigma: number): number =>
  Math.exp(-0.5 * (left / sigma) ** 2) / (sigma * Math.sqrt(2 * Math.PI));

/** Every common slip that the reading might have come by, with what each would leave of the misfit; none where it carries no number. */
export const commonSlips = (misfit: Misfit): readonly Slip[] => {
  const { kind } = misfit.reading;
  if (kind === 'line' || kind === 'flush' || kind === 'square' || kind === 'runout') return [];
  return [
    ...misreadMarks(misfit),
    ...swappedDigits(misfit),
    ...wrongUnit(misfit),
    ...wrongPoint(misfit),
    ...wrongScale(misfit),
    ...wrongKind(misfit),
    ...wrongFeatures(misfit),
  ];
};

/**
 * What most likely went wrong with a reading that does not agree with the rest, in plain words, by Bayes' rule over the common
 * slips; null where none fits within its ± (two standard uncertainties) or several fit about as well.
 */
export const guessSlip = (misfit: Misfit): string | null => {
  const { sigma, reading, value, expected } = misfit;
  const breadth = reading.unit === null ? BREADTH.angle : BREADTH.length;
  return likeliest(commonSlips(misfit), sigma, Math.max(breadth, Math.abs(value - expected)));
};

/** The same for a stated diameter, mm. */
export const guessSize = (value: number, expected: number, sigma: number): string | null =>
  likeliest(wrongSize(value, expected), sigma, Math.max(BREADTH.length, Math.abs(value - expected)));

const likeliest = (slips: readonly Slip[], sigma: number, breadth: number): string | null => {
  const likelihoods = slips.map((s) => s.weight * density(s.left, sigma));
  const total = likelihoods.reduce((a, b) => a + b, ELSE / (2 * breadth));
  let best = -1;
  for (const [i, l] of likelihoods.entries()) if (best < 0 || l > (likelihoods[best] ?? 0)) best = i;
  const slip = slips[best];
  if (slip === undefined || Math.abs(slip.left) > 2 * sigma) return null;
  return (likelihoods[best] ?? 0) / total >= LIKELY ? slip.says : null;
};
