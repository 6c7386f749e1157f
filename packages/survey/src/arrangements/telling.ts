import { distance } from '@fayplate/core';
import type { Reading } from '@fayplate/job';
import type { Adjustment } from '../adjust/adjustment.js';
import { sizeOf } from '../frame/located.js';
import type { Placed } from '../frame/placed.js';
import type { Network } from '../network/network.js';
import { observe } from '../network/observe.js';
import { type Rough, canBeRead, candidatesFor, toolsOf } from '../next/candidates.js';
import type { SettlingReading } from '../types.js';
import { clockCost, overlapsAt } from './overlaps.js';

/**
 * What stands against an arrangement in which solids overlap: more than the worst clocks and the worst of misreadings
 * together.
 */
const IMPOSSIBLE = 60;

/**
 * What stands against an arrangement, as −2 log of odds: the readings' χ², what the clocks have against it, and whether
 * solids would overlap. One rule for all arrangements, whether they fit alike to the last digit or only about alike.
 */
export const weightOf = (network: Network, chi2: number, x: Float64Array): number =>
  chi2 + clockCost(network, x) + (overlapsAt(network, x).length > 0 ? IMPOSSIBLE : 0);

/** Arrangements are live, the likeliest first, until their odds together reach this. */
const SURE = 0.95;

/** How many of the arrangements are live, by their odds, the likeliest first: one where that one is sure. */
export const liveOf = (odds: readonly number[]): number => {
  let [sum, live] = [0, 0];
  for (; live < odds.length && sum < SURE; live++) sum += odds[live] ?? 0;
  return live;
};

/** Odds of each, from what stands against them; they add up to 1. */
export const oddsOf = (weights: readonly number[]): readonly number[] => {
  const least = Math.min(...weights);
  const shares = weights.map((w) => Math.exp((least - w) / 2));
  const sum = shares.reduce((a, b) => a + b, 0);
  return shares.map((s) => s / sum);
};

/**
 * A reading that two arrangements have so many of its standard uncertainties apart settles between them as well as any.
 */
const PLENTY = 20;
/** Below this no reading settles anything. */
const LEAST = 4;
/** On a large face only the features that move most are considered. */
const MOST = 40;

/**
 * The one reading to take that tells an arrangement from its rivals best, with the value that each predicts: the
 * rivals' readings lie far from its own, for its ±. Null where the instruments of the job reach no such reading.
 */
export const settlingReading = (
  found: Adjustment,
  placed: readonly Placed[],
  rivals: readonly Adjustment[],
): SettlingReading | null => {
  const { network, values } = found;
  const { face, instruments, unknowns } = network;
  if (rivals.length === 0) return null;
  const tools = toolsOf(face, instruments);
  const rough = placed.flatMap((p): readonly Rough[] => {
    const feature = face.features.find((f) => f.id === p.slots.id);
    if (feature === undefined || !canBeRead(feature)) return [];
    return [{ feature, at: p.point, radius: sizeOf(found, p.slots).radius }];
  });
  const few = rough.slice(0, MOST);
  const candidates = few.flatMap((a, i) => few.slice(i + 1).flatMap((b) => candidatesFor(face, a, b, tools)));
  const told = candidates.flatMap((reading: Reading) => {
    const [o] = observe(reading, unknowns);
    if (o === undefined) return [];
    const here = o.model(values);
    const there = rivals.map((r) => o.model(r.values));
    const apart = Math.min(...there.map((t) => Math.abs(t - here) / o.sigma));
    const [a, b] = reading.features.map((id) => rough.find((r) => r.feature.id === id)?.at);
    const length = a === undefined || b === undefined ? 0 : distance(a, b);
    return apart < LEAST ? [] : [{ reading, here, there, apart: Math.min(apart, PLENTY), length }];
  });
  const best = told.reduce<(typeof told)[number] | null>(
    (one, other) =>
      one === null || other.apart > one.apart || (other.apart === one.apart && other.length < one.length) ? other : one,
    null,
  );
  return best === null
    ? null
    : { reading: best.reading.text, instrument: best.reading.instrument, here: best.here, there: best.there };
};
