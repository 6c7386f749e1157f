import { type DistanceKind, type ReadingKind, isDistance, readOf, usesRadius } from '@fayplate/job';
import type { Adjustment } from '../adjust/adjustment.js';
import type { Observation } from '../network/observation.js';
import { observe } from '../network/observe.js';
import { radiusAt } from '../network/unknowns.js';
import { commonSlips, guessSize, guessSlip } from './guess.js';
import type { Misfit, Slip } from './slip.js';
import { wrongSize } from './units.js';

/** What is known of a suspect when it is set aside: the ground for a plain guess at how it was misread. */
export interface Clue {
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
  /** Most guesses are at distances between two centres, and there may be thousands: their number needs no equation made for it. */
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

/** A plain guess at how a suspect came to its number; null where none fits, and for a shared zero error. */
export const guessFor = (clue: Clue): string | null => {
  const { observation, expected, sigma } = clue;
  if (observation.kind === 'diameter') return guessSize(observation.value, expected, sigma);
  const misfit = misfitOf(clue);
  return misfit === null ? null : guessSlip(misfit);
};

/** The common slips that a suspect might have come by; none for a shared zero error. */
export const slipsFor = (clue: Clue): readonly Slip[] => {
  if (clue.observation.kind === 'diameter') return wrongSize(clue.observation.value, clue.expected);
  const misfit = misfitOf(clue);
  return misfit === null ? [] : commonSlips(misfit);
};
