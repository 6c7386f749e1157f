import type { Measured } from '../measured/points.js';
import { MOST_DIVISIONS, logOccupied } from '../prior/divisions.js';
import { gcd } from '../prior/logs.js';
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

/** Members whose headings fall on n divisions counted from member `zero`. */
const agreeing = (polar: Polar, zero: number, n: number): readonly number[] => {
  const part = (2 * Math.PI) / n;
  return polar.headings.flatMap((a, k) => {
    const d = a - (polar.headings[zero] ?? 0);
    const rest = d - part * Math.round(d / part);
    const v = differenceVariance(polar.headingCovariance, polar.headings.length, k, zero);
    return Math.abs(rest) <= WIDE * Math.sqrt(v) + 1e-12 ? [k] : [];
  });
};

/** Most divisions that the headings could tell apart. */
const finest = (polar: Polar): number => {
  const k = polar.headings.length;
  let most = 0;
  for (let i = 0; i < k; i++) for (let j = 0; j < i; j++) most = Math.max(most, differenceVariance(polar.headingCovariance, k, i, j));
  return Math.min(MOST_DIVISIONS, Math.floor((2 * Math.PI) / (FINEST * Math.sqrt(Math.max(most / 2, 1e-24)))));
};

/** Ways in which a set of features on one circle falls on equal divisions, the likeliest first. */
export const divide = (measured: Measured, set: RingSet): readonly Divided[] => {
  const polar = polarOf(measured, set.members, set.about);
  const least = 'own' in set.about ? 3 : 2;
  const found: { readonly group: Divided; readonly score: number }[] = [];
  const seen = new Set<string>();
  for (let n = 2; n <= finest(polar); n++) {
    const subsets = new Map<string, readonly number[]>();
    for (const zero of polar.headings.keys()) {
      if ([...subsets.values()].some((s) => s.includes(zero))) continue;
      const kept = agreeing(polar, zero, n);
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
      found.push({ score, group: { kind: 'divided', members, about: set.about, divisions: n, places, heading, held: false, diameter: set.diameter } });
    }
  }
  const best = Math.max(...found.map((f) => f.score));
  return found
    .filter((f) => f.score > best - BEHIND)
    .sort((a, b) => b.score - a.score)
    .slice(0, MOST_KEPT)
    .map((f) => f.group);
};
