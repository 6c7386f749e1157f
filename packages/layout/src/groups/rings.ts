import { type Circle, circumcircle, distance, fitCircle, kasaCircle } from '@fayplate/core';
import type { Measured } from '../measured.js';
import type { About } from './group.js';
import { differenceVariance, polarOf } from './headings.js';
import { WIDE, at, keyOf, spread } from './near.js';

/** Features that lie on one circle as far as their readings can tell. */
export interface RingSet {
  readonly members: readonly number[];
  readonly about: About;
  readonly diameter: number;
}

const MOST_CENTRES = 4;
const MOST_TRIPLES = 800;

/** Sets of features at one distance from a given centre. */
const aboutFeature = (measured: Measured, feature: number): readonly RingSet[] => {
  const members = measured.fasteners.filter((f) => f !== feature);
  if (members.length < 2) return [];
  const polar = polarOf(measured, members, { feature });
  const found = new Map<string, RingSet>();
  for (const [i, r] of polar.distances.entries()) {
    const near = members.flatMap((m, j) => {
      const s = polar.distances[j] ?? Number.NaN;
      const v = differenceVariance(polar.distanceCovariance, members.length, i, j);
      return Math.abs(s - r) <= WIDE * Math.sqrt(v) + 1e-9 ? [{ m, s }] : [];
    });
    if (near.length < 2) continue;
    const diameter = (2 * near.reduce((q, n) => q + n.s, 0)) / near.length;
    const set = { members: near.map((n) => n.m), about: { feature }, diameter };
    if (!found.has(keyOf(set.members))) found.set(keyOf(set.members), set);
  }
  return [...found.values()];
};

/**
 * Sets on a circle that is about nothing measured: circles through three features, refitted to those that they meet.
 */
const aboutOwn = (measured: Measured): readonly RingSet[] => {
  const f = measured.fasteners;
  const reaches = new Map(f.map((i) => [i, spread(measured, i)]));
  const meeting = (circle: Circle, wide: number): readonly number[] =>
    f.filter(
      (i) => Math.abs(distance(at(measured, i), circle.centre) - circle.radius) <= wide * (reaches.get(i) ?? 0) + 1e-9,
    );
  const count = (f.length * (f.length - 1) * (f.length - 2)) / 6;
  const stride = Math.max(1, Math.ceil(count / MOST_TRIPLES));
  const found = new Map<string, RingSet>();
  let turn = 0;
  for (const [i, a] of f.entries()) {
    for (const [j, b] of f.slice(i + 1).entries()) {
      for (const c of f.slice(i + j + 2)) {
        if (turn++ % stride !== 0) continue;
        const triple = [a, b, c];
        // Three features of a circle already found would only find it again.
        if ([...found.values()].some((s) => triple.every((t) => s.members.includes(t)))) continue;
        let circle = circumcircle(at(measured, a), at(measured, b), at(measured, c));
        let members: readonly number[] = triple;
        for (const wide of [2 * WIDE, WIDE]) {
          if (circle === null || circle.radius > 2 * measured.extent) break;
          members = meeting(circle, wide);
          if (members.length < 4) break;
          circle = kasaCircle(members.map((m) => at(measured, m)));
        }
        if (circle === null || circle.radius > 2 * measured.extent) continue;
        const kept = members.length >= 4 ? members : f.length === 3 ? triple : null;
        if (kept === null || found.has(keyOf(kept))) continue;
        found.set(keyOf(kept), { members: kept, about: { own: circle.centre }, diameter: 2 * circle.radius });
      }
    }
  }
  return [...found.values()];
};

/** Most sets that are carried on. */
const MOST_SETS = 24;

/**
 * Every set of features that may share a circle, largest first; each is tried about the given centres and about its
 * own.
 */
export const ringSets = (measured: Measured): readonly RingSet[] => {
  const given = measured.centres.slice(0, MOST_CENTRES).flatMap((c) => aboutFeature(measured, c));
  const seen = new Set(given.map((s) => keyOf(s.members)));
  const own = measured.fasteners.length >= 3 ? aboutOwn(measured) : [];
  const again = given.flatMap((s): readonly RingSet[] => {
    if (s.members.length < 4) return [];
    const circle = fitCircle(s.members.map((m) => at(measured, m)));
    return circle === null || circle.radius > 2 * measured.extent
      ? []
      : [{ members: s.members, about: { own: circle.centre }, diameter: 2 * circle.radius }];
  });
  return [...given, ...again, ...own.filter((s) => !seen.has(keyOf(s.members)))]
    .sort((a, b) => b.members.length - a.members.length)
    .slice(0, MOST_SETS);
};
