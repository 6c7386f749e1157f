import type { Measured } from '../measured.js';
import { gcd } from '../prior/length.js';
import { MOST_DIVISIONS, logOccupied } from '../prior/places.js';
import type { Divided } from './group.js';
import { type Polar, differenceVariance, informationOf, placesFor, polarOf } from './headings.js';
import { WIDE } from './near.js';
import type { RingSet } from './rings.js';

/** Divisions closer than this many standard deviations of a heading cannot be told apart and are not tried. */
const FINEST = 4;
/** Groups this many nats behind the best of their set are left out. */
const BEHIND = 18;
const MOST_KEPT = 8;
/** What leaving one feature single costs, in nats, at the least: only to rank what is carried on. */
const SINGLE = 6;

const select = (c: Float64Array, size: number, kept: readonly number[]): Float64Array =>
  Float64Array.from(kept.flatMap((i) => kept.map((j) => c[i * size + j] as number)));

const pick = (polar: Polar, kept: readonly number[]): Polar => ({
  headings: kept.map((k) => polar.headings[k] ?? Number.NaN),
  distances: kept.map((k) => polar.distances[k] ?? Number.NaN),
  headingCovariance: select(polar.headingCovariance, polar.headings.length, kept),
  distanceCovariance: select(polar.distanceCovariance, polar.headings.length, kept),
});

/** Standard deviations of the differences of headings, k × k. */
const spreads = (polar: Polar): Float64Array => {
  const k = polar.headings.length;
  return Float64Array.from({ length: k * k }, (_, i) =>
    Math.sqrt(differenceVariance(polar.headingCovariance, k, Math.floor(i / k), i % k)),
  );
};

/** Members whose headings fall on n divisions counted from member `zero`. */
const agreeing = ({ headings }: Polar, sigma: Float64Array, zero: number, n: number): readonly number[] => {
  const part = (2 * Math.PI) / n;
  const from = headings[zero] ?? 0;
  const kept: number[] = [];
  for (let k = 0; k < headings.length; k++) {
    const d = (headings[k] ?? 0) - from;
    if (Math.abs(d - part * Math.round(d / part)) <= WIDE * (sigma[k * headings.length + zero] as number) + 1e-12)
      kept.push(k);
  }
  return kept;
};

/** Most divisions that the headings could tell apart. */
const finest = (sigma: Float64Array): number =>
  Math.min(MOST_DIVISIONS, Math.floor((2 * Math.PI * Math.SQRT2) / (FINEST * Math.max(...sigma, 1e-12))));

/** Ways in which a set of features on one circle falls on equal divisions, the likeliest first. */
export const divide = (measured: Measured, set: RingSet): readonly Divided[] => {
  const polar = polarOf(measured, set.members, set.about);
  const least = 'own' in set.about ? 3 : 2;
  const found: { readonly group: Divided; readonly score: number }[] = [];
  const seen = new Set<string>();
  const sigma = spreads(polar);
  const last = finest(sigma);
  for (let n = 2; n <= last; n++) {
    const subsets = new Map<string, readonly number[]>();
    for (const zero of polar.headings.keys()) {
      if ([...subsets.values()].some((s) => s.includes(zero))) continue;
      const kept = agreeing(polar, sigma, zero, n);
      if (kept.length >= Math.max(least, Math.ceil(0.6 * set.members.length))) subsets.set(kept.join(' '), kept);
    }
    for (const [key, kept] of subsets) {
      const some = kept.length === set.members.length ? polar : pick(polar, kept);
      const { places, heading, chi2 } = placesFor(some, informationOf(some.headingCovariance), n);
      if (new Set(places).size < places.length) continue;
      // A finer division whose holes all fall on a coarser one says nothing more: `logOccupied` counts it there.
      const first = places[0] ?? 0;
      if (places.reduce((g, p) => gcd(g, Math.abs(p - first)), n) > 1) continue;
      const score = -chi2 / 2 + logOccupied(n, places.length) - SINGLE * (set.members.length - places.length);
      if (seen.has(`${n} ${key}`)) continue;
      seen.add(`${n} ${key}`);
      const members = kept.map((k) => set.members[k] ?? -1);
      found.push({
        score,
        group: {
          kind: 'divided',
          members,
          about: set.about,
          divisions: n,
          places,
          heading,
          held: false,
          diameter: set.diameter,
        },
      });
    }
  }
  const best = Math.max(...found.map((f) => f.score));
  return found
    .filter((f) => f.score > best - BEHIND)
    .sort((a, b) => b.score - a.score)
    .slice(0, MOST_KEPT)
    .map((f) => f.group);
};
