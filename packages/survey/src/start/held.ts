import { type Point, cross, distance, intersectCircles, scale, subtract } from '@fayplate/core';
import { isDistance } from '@fayplate/job';
import { wouldOverlap } from '../arrangements/overlaps.js';
import { type Sketch, placeIn, putIn } from './sketch.js';

/** A place is out of the question where a reading would be off by so many of its standard uncertainties, those of the two centres counted in. */
const FAR = 10;
/** Arrangements kept side by side; with more of them the readings are not looked into further. */
const MOST = 600;

/** A distance that a reading states between two features; mm, one standard uncertainty. */
interface Bond {
  readonly to: number;
  readonly length: number;
  readonly sigma: number;
}

/** A feature that stands, and how loosely: one standard uncertainty, mm, added up from the first on, which is more than it is. */
interface Stood {
  readonly at: Point;
  readonly loose: number;
}

type Arrangement = readonly (Stood | null)[];

/** For each feature the others that a stated distance ties it to, the surest such distance of each, as long as it comes out at `at`. */
const bondsOf = (sketch: Sketch, at: readonly Point[]): readonly (readonly Bond[])[] => {
  const surest = sketch.slots.map(() => new Map<number, Bond>());
  for (const { reading, of, sigma } of sketch.ties) {
    const [a = -1, b = -1] = of;
    const [p, q] = [at[a], at[b]];
    if (
      a === b ||
      p === undefined ||
      q === undefined ||
      !isDistance(reading.kind) ||
      sigma >= (surest[a]?.get(b)?.sigma ?? Number.POSITIVE_INFINITY)
    )
      continue;
    surest[a]?.set(b, { to: b, length: distance(p, q), sigma });
    surest[b]?.set(a, { to: a, length: distance(p, q), sigma });
  }
  return surest.map((bonds) => [...bonds.values()]);
};

/** Sine of the angle under which two points are seen from a third. */
const crossing = (from: Point, a: Point, b: Point): number => {
  const [da, db] = [distance(from, a), distance(from, b)];
  return da === 0 || db === 0 ? 0 : Math.abs(cross(scale(subtract(a, from), 1 / da), scale(subtract(b, from), 1 / db)));
};

const standing = (arrangement: Arrangement, bonds: readonly Bond[]): readonly (Bond & Stood)[] =>
  bonds.flatMap((bond) => {
    const stood = arrangement[bond.to] ?? null;
    return stood === null ? [] : [{ ...bond, ...stood }];
  });

const looseness = (at: Point, a: Bond & Stood, b: Bond & Stood): number =>
  Math.max(a.sigma + a.loose, b.sigma + b.loose) / Math.max(crossing(at, a.at, b.at), 1e-9);

/** The two that hold a feature best, and how loosely; null where no two stand. */
const bestPair = (
  at: Point,
  anchors: readonly (Bond & Stood)[],
): { readonly pair: readonly [number, number]; readonly loose: number } | null => {
  let best: { readonly pair: readonly [number, number]; readonly loose: number } | null = null;
  for (const [i, a] of anchors.entries()) {
    for (const b of anchors.slice(i + 1)) {
      const loose = looseness(at, a, b);
      if (best === null || loose < best.loose) best = { pair: [a.to, b.to], loose };
    }
  }
  return best;
};

/** The arrangement with one feature more, in each place that two distances give and no other plainly rules out; null where the two only just meet, and tell too little. */
const withOne = (
  arrangement: Arrangement,
  f: number,
  bonds: readonly Bond[],
  pair: readonly [number, number],
): readonly Arrangement[] | null => {
  const anchors = standing(arrangement, bonds);
  const [a, b] = pair.map((to) => anchors.find((c) => c.to === to));
  if (a === undefined || b === undefined) return [];
  const apart = distance(a.at, b.at);
  const gap = Math.max(apart - a.length - b.length, Math.abs(a.length - b.length) - apart);
  if (gap > FAR * (a.sigma + a.loose + b.sigma + b.loose)) return [];
  const places = intersectCircles({ centre: a.at, radius: a.length }, { centre: b.at, radius: b.length });
  if (places === null) return null;
  return places.flatMap((at) => {
    const loose = looseness(at, a, b);
    const ruledOut = anchors.some((c) => Math.abs(distance(at, c.at) - c.length) > FAR * (c.sigma + c.loose + loose));
    return ruledOut ? [] : [arrangement.with(f, { at, loose })];
  });
};

/** The stoutest triangle of distances: its corners, and how loosely they hold each other. */
const firstTriangle = (
  at: readonly Point[],
  bonds: readonly (readonly Bond[])[],
): { readonly corners: readonly number[]; readonly loose: number } | null => {
  let best: { readonly corners: readonly number[]; readonly loose: number } | null = null;
  for (const [a, of] of bonds.entries()) {
    for (const ab of of) {
      if (ab.to < a) continue;
      for (const bc of bonds[ab.to] ?? []) {
        const ca = bc.to < ab.to ? undefined : of.find((o) => o.to === bc.to);
        const [p, q, r] = [at[a], at[ab.to], at[bc.to]];
        if (ca === undefined || p === undefined || q === undefined || r === undefined) continue;
        const loose =
          Math.max(ab.sigma, bc.sigma, ca.sigma) /
          Math.max(Math.min(crossing(p, q, r), crossing(q, p, r), crossing(r, p, q)), 1e-9);
        if (best === null || loose < best.loose) best = { corners: [a, ab.to, bc.to], loose };
      }
    }
  }
  return best;
};

/** One feature more must not lie in the metal of those that stand. */
const isFree = (sketch: Sketch, arrangement: Arrangement, f: number): boolean => {
  const at = arrangement[f]?.at;
  return (
    at === undefined ||
    arrangement.every((s, g) => s === null || g === f || !wouldOverlap(sketch.network, f, g, distance(s.at, at)))
  );
};

/**
 * All arrangements that the readings leave beside the one that they fit at `x`, itself among them, but for mirror images of the whole and
 * for those in which solids overlap. From a triangle on, feature by feature, each is put where two distances from those that stand let it
 * lie, in both places; what a third distance plainly contradicts is dropped. (Bilateration: Fang, Cao, Morse & Anderson 2009, Sequential
 * localization of sensor networks, from memory.) Null where the readings are of other kinds, hold too loosely to say, or leave too many.
 */
export const arrangementsBeside = (sketch: Sketch, x: Float64Array): readonly Float64Array[] | null => {
  const at = sketch.slots.map((_, f) => placeIn(sketch, x, f));
  const bonds = bondsOf(sketch, at);
  const first = firstTriangle(at, bonds);
  if (first === null) return null;
  let found: Arrangement = at.map((p, f) => (first.corners.includes(f) ? { at: p, loose: first.loose } : null));
  let all: readonly Arrangement[] = [found];
  for (let stand = 3; stand < at.length; stand++) {
    let next: {
      readonly f: number;
      readonly anchors: number;
      readonly pair: readonly [number, number];
      readonly loose: number;
    } | null = null;
    for (const [f, here] of at.entries()) {
      if (found[f] !== null) continue;
      const anchors = standing(found, bonds[f] ?? []);
      const held = bestPair(here, anchors);
      if (
        held !== null &&
        (next === null || anchors.length > next.anchors || (anchors.length === next.anchors && held.loose < next.loose))
      )
        next = { f, anchors: anchors.length, ...held };
    }
    const here = next === null ? undefined : at[next.f];
    if (next === null || here === undefined) return null;
    const { f, pair, loose } = next;
    found = found.with(f, { at: here, loose });
    const grown = all.map((arrangement) => withOne(arrangement, f, bonds[f] ?? [], pair));
    if (grown.some((g) => g === null)) return null;
    all = grown.flatMap((g) => g ?? []).filter((g) => isFree(sketch, g, f));
    if (all.length > MOST) return null;
  }
  return all.map((arrangement) => {
    const there = Float64Array.from(x);
    for (const [f, stood] of arrangement.entries()) if (stood !== null) putIn(sketch, there, f, stood.at);
    return there;
  });
};
