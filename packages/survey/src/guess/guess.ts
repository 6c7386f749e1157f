import { type DistanceKind, type ReadingKind, isDistance, readOf, usesRadius } from '@fayplate/job';
import type { Adjustment } from '../adjust/adjustment.js';
import type { Observation } from '../network/observation.js';
import { observe } from '../network/observe.js';
import { radiusAt } from '../network/unknowns.js';
import { wrongFeatures, wrongKind } from './kinds.js';
import { misreadMarks } from './marks.js';
import { wrongPoint, wrongScale, wrongSize, wrongUnit } from './units.js';
import { type Misfit, type Slip, swappedDigits } from './written.js';

/**
 * Weight of 'something else', whose error may have any size up to `BREADTH` either way: mm, or radians for an angle.
 */
const ELSE = 8;
const BREADTH = { length: 25, angle: 0.5 } as const;
/** A guess is made only where it is this likely beside all the others together (a judgement: three to one). */
const LIKELY = 0.75;

const density = (left: number, sigma: number): number =>
  Math.exp(-0.5 * (left / sigma) ** 2) / (sigma * Math.sqrt(2 * Math.PI));

/**
 * Every common slip that could explain the reading, with the residual that each would leave; none where it carries no
 * number.
 */
const commonSlips = (misfit: Misfit): readonly Slip[] => {
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
 * What most likely went wrong with a reading that does not agree with the rest, in plain words, by Bayes' rule over the
 * common slips; null where none fits within its ± (two standard uncertainties) or several fit about as well.
 */
export const guessSlip = (misfit: Misfit): string | null => {
  const { sigma, reading, value, expected } = misfit;
  const breadth = reading.unit === null ? BREADTH.angle : BREADTH.length;
  return likeliest(commonSlips(misfit), sigma, Math.max(breadth, Math.abs(value - expected)));
};

/** The same for a stated diameter, mm. */
const guessSize = (value: number, expected: number, sigma: number): string | null =>
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

/** What is known of a suspect when it is set aside: the ground for a plain guess at how it was misread. */
interface Clue {
  readonly observation: Observation;
  /** The rest of the readings, adjusted without it. */
  readonly without: Adjustment;
  /** What the rest say that it should read, mm or radians. */
  readonly expected: number;
  /** Standard uncertainty of `value − expected`, mm or radians. */
  readonly sigma: number;
}

const misfitOf = ({ observation, without, expected, sigma }: Clue): Misfit | null => {
  const { reading } = observation;
  if (reading === null) return null;
  const { network, values } = without;
  const { unknowns } = network;
  const zero = values[unknowns.zeros.get(reading.instrument ?? '') ?? -1] ?? 0;
  /**
   * Most guesses are at distances between two centres, and there may be thousands: they need no equation of their own.
   */
  const wouldMeasure = (kind: DistanceKind, a: string, b: string): number | null => {
    const [p, q] = [unknowns.features.get(a), unknowns.features.get(b)];
    if (p === undefined || q === undefined) return null;
    const [ra, rb] = [radiusAt(p, values), radiusAt(q, values)];
    if (usesRadius(kind) && (ra === null || rb === null)) return null;
    const [dx, dy] = [(values[p.x] ?? 0) - (values[q.x] ?? 0), (values[p.y] ?? 0) - (values[q.y] ?? 0)];
    return readOf(kind, Math.hypot(dx, dy), ra ?? 0, rb ?? 0) + zero;
  };
  const wouldRead = (kind: ReadingKind, features: readonly string[]): number | null => {
    const [a, b] = features;
    if (isDistance(kind) && a !== undefined && b !== undefined) return wouldMeasure(kind, a, b);
    const slots = features.map((id) => unknowns.features.get(id));
    if (slots.some((s) => s === undefined || (usesRadius(kind) && radiusAt(s, values) === null))) return null;
    return observe({ ...reading, kind, features, point: null }, unknowns)[0]?.model(values) ?? null;
  };
  return { reading, value: observation.value, expected, sigma, wouldRead, features: [...unknowns.features.keys()] };
};

/** A guess in plain words at how a suspect got its number; null where none fits, and for a shared zero error. */
export const guessFor = (clue: Clue): string | null => {
  const { observation, expected, sigma } = clue;
  if (observation.kind === 'diameter') return guessSize(observation.value, expected, sigma);
  const misfit = misfitOf(clue);
  return misfit === null ? null : guessSlip(misfit);
};

/** The common slips that could explain a suspect; none for a shared zero error. */
export const slipsFor = (clue: Clue): readonly Slip[] => {
  if (clue.observation.kind === 'diameter') return wrongSize(clue.observation.value, clue.expected);
  const misfit = misfitOf(clue);
  return misfit === null ? [] : commonSlips(misfit);
};
