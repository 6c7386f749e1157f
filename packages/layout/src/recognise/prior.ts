import { type StandardFace, standardFaces } from '@fayplate/handbook';
import { once } from '@fayplate/core';
import { freeSize, sizeFamilies } from '../prior/length.js';

/**
 * Before anything is measured: one face in ten that people plate is a standard one, four in ten carry an equally
 * divided circle of some other size, the rest are irregular. Source: none; a guess that the bench shows to be on the
 * careful side (its table of false recognitions).
 */
export const CHANCE = { standard: 0.1, equal: 0.4, irregular: 0.5 } as const;

/** A face is the standard part itself three times in four, else what was made to take one. */
export const SIDES = { is: 0.75, takes: 0.25 } as const;

/** Sizes lie between these, evenly on a logarithmic scale: a density of 1 / (x · log(most / least)). mm. */
const spread =
  (least: number, most: number) =>
  (x: number): number =>
    x < least || x > most ? 1e-9 : 1 / (x * Math.log(most / least));
const bigSizes = spread(15, 700);
const holeSizes = spread(3, 40);

/** How many holes a circle that follows no standard has. */
const counts: Readonly<Record<number, number>> = { 2: 0.06, 3: 0.12, 4: 0.34, 5: 0.06, 6: 0.22, 8: 0.13, 12: 0.04 };
export const chanceOfCount = (n: number): number => counts[n] ?? 0.005;

/** The family of standards that a row belongs to; families are equally likely, and rows within one. */
const familyOf = (f: StandardFace): string => f.standard.split(',')[0] ?? '';

export const chanceOfRow = once((): ReadonlyMap<StandardFace, number> => {
  const faces = standardFaces();
  const sizes = new Map<string, number>();
  for (const f of faces) sizes.set(familyOf(f), (sizes.get(familyOf(f)) ?? 0) + 1);
  return new Map(faces.map((f) => [f, 1 / (sizes.size * (sizes.get(familyOf(f)) ?? 1))]));
});

const normal = (off: number, sigma: number): number =>
  Math.exp(-((off / sigma) ** 2) / 2) / (sigma * Math.sqrt(2 * Math.PI));

/**
 * Density of a normal that a uniform band of limits widens: the variance of the band is a third of its half width
 * squared.
 */
export const nearLimits = (value: number, sigma: number, least: number, most: number): number =>
  normal(value - (least + most) / 2, Math.hypot(sigma, (most - least) / Math.sqrt(12)));

export const nearSize = (value: number, sigma: number, size: number): number => normal(value - size, sigma);

/**
 * Density of a measured size that a maker chose as people choose sizes (the layout's own prior: round in inches, in
 * millimetres, or free).
 */
export const anySize = (value: number, sigma: number): number => {
  const density = bigSizes(value);
  let sum = freeSize * density;
  for (const { weight, step, offset } of sizeFamilies) {
    if (sigma > step) {
      sum += weight * density;
      continue;
    }
    const nearest = offset + Math.round((value - offset) / step) * step;
    sum += weight * step * density * normal(value - nearest, sigma);
  }
  return sum;
};

/** Density of a hole's diameter where nothing is known of it. */
export const anyHole = (value: number): number => holeSizes(value);

/** Chance of one thread where nothing is known of it, and of another than the standard's on a standard part. */
export const ANY_THREAD = 0.08;
export const OTHER_THREAD = 0.02;
