import { type Point, cross, distance, intersectCircles, once, scale, subtract } from '@fayplate/core';
import { isDistance } from '@fayplate/job';
import { wouldOverlap } from '../arrangements/overlaps.js';
import { type Sketch, pointOf, setPoint } from './sketch.js';

/**
 * A place is out of the question where a reading would be off by so many of its standard uncertainties, those of the
 * two centres counted in.
 */
const FAR = 10;
/** Arrangements kept side by side; with more of them the readings are not looked into further. */
const MOST = 600;

/** A distance that a reading states between two features; mm, one standard uncertainty. */
interface Bond {
  readonly to: number;
  readonly length: number;
  readonly sigma: number;
}

/** Of each feature, by place in the sketch: the distances to others. */
type Bonds = readonly ReadonlyMap<number, Bond>[];

/**
 * A feature that stands, and how loosely: one standard uncertainty, mm, added up from the first on, which is more than
 * it is.
 */
interface Stood {
  readonly at: Point;
  readonly loose: number;
}

type Arrangement = readonly (Stood | null)[];

/**
 * For each feature the others that a stated distance ties it to, the surest such distance of each, as long as it comes
 * out at `at`.
 */
const bondsOf = (sketch: Sketch, at: readonly Point[]): Bonds => {
  const surest = sketch.slots.map(() => new Map<number, Bond>());
  const bind = (a: number, b: number, length: number, sigma: number): void => {
    if (a === b || sigma >= (surest[a]?.get(b)?.sigma ?? Number.POSITIVE_INFINITY)) return;
    surest[a]?.set(b, { to: b, length, sigma });
    surest[b]?.set(a, { to: a, length, sigma });
  };
  for (const { reading, of, sigma } of sketch.ties) {
    const [a = -1, b = -1] = of;
    const [p, q] = [at[a], at[b]];
    if (p !== undefined && q !== undefined && isDistance(reading.kind)) bind(a, b, distance(p, q), sigma);
  }
  // Two distances and the angle between them give the third side (polar places about a common centre).
  for (const { reading, of, sigma } of sketch.ties) {
    if (reading.kind !== 'angle') continue;
    const [a = -1, v = -1, b = -1] = of;
    const [p, q] = [at[a], at[b]];
    const [one, two] = [surest[v]?.get(a), surest[v]?.get(b)];
    if (p === undefined || q === undefined || one === undefined || two === undefined) continue;
    const length = distance(p, q);
    if (length === 0) continue;
    const lever = (one.length * two.length * Math.abs(Math.sin(reading.value))) / length;
    bind(a, b, length, Math.hypot(lever * sigma, one.sigma, two.sigma));
  }
  return surest;
};

/** Features that a place on the bench holds where they are, and how loosely, mm. */
export const onTable = (sketch: Sketch): ReadonlyMap<number, number> => {
  const held = new Map<number, number>();
  for (const { reading, of, sigma } of sketch.ties) {
    const [f = -1] = of;
    if (reading.kind === 'at') held.set(f, Math.min(sigma, held.get(f) ?? Number.POSITIVE_INFINITY));
  }
  return held;
};

/** Sine of the angle under which two points are seen from a third. */
const crossing = (from: Point, a: Point, b: Point): number => {
  const [da, db] = [distance(from, a), distance(from, b)];
  return da === 0 || db === 0 ? 0 : Math.abs(cross(scale(subtract(a, from), 1 / da), scale(subtract(b, from), 1 / db)));
};

const standing = (arrangement: Arrangement, bonds: ReadonlyMap<number, Bond> | undefined): readonly (Bond & Stood)[] =>
  [...(bonds?.values() ?? [])].flatMap((bond) => {
    const stood = arrangement[bond.to] ?? null;
    return stood === null ? [] : [{ ...bond, ...stood }];
  });

const looseness = (at: Point, a: Bond & Stood, b: Bond & Stood): number =>
  Math.max(a.sigma + a.loose, b.sigma + b.loose) / Math.max(crossing(at, a.at, b.at), 1e-9);

/** Features looked at round two that are held to each other, when it is asked how loosely others lie against these. */
const ROUND = 40;

/**
 * How loosely features round two that a distance holds to each other lie against these: added up from the two on, so
 * that errors of those farther off do not count. Features are put to it in turn, the surest first, until all wanted are
 * there.
 */
const looseRound = (
  arrangement: Arrangement,
  bonds: Bonds,
  [a, b]: readonly [number, number],
  between: number,
  wanted: ReadonlySet<number>,
): ReadonlyMap<number, number> => {
  const loose = new Map([
    [a, 0],
    [b, between],
  ]);
  const open = new Map<number, number>();
  const offer = (from: number): void => {
    for (const f of bonds[from]?.keys() ?? []) {
      const stood = arrangement[f] ?? null;
      if (stood === null || loose.has(f)) continue;
      const near = standing(arrangement, bonds[f]).flatMap((c) => {
        const own = loose.get(c.to);
        return own === undefined ? [] : [{ ...c, loose: own }];
      });
      let least = open.get(f) ?? Number.POSITIVE_INFINITY;
      for (const [i, c] of near.entries())
        for (const d of near.slice(i + 1)) least = Math.min(least, looseness(stood.at, c, d));
      if (least < Number.POSITIVE_INFINITY) open.set(f, least);
    }
  };
  offer(a);
  offer(b);
  let missing = [...wanted].filter((f) => !loose.has(f)).length;
  while (missing > 0 && loose.size < ROUND) {
    const [f, least] = [...open].reduce<readonly [number, number]>((p, q) => (q[1] < p[1] ? q : p), [-1, 1 / 0]);
    if (f < 0) break;
    open.delete(f);
    loose.set(f, least);
    if (wanted.has(f)) missing--;
    offer(f);
  }
  return loose;
};

/** The two from which a feature is put down, and how loosely they hold it. */
interface Pair {
  readonly pair: readonly [number, number];
  /** Added up from the first feature on. */
  readonly loose: number;
  /**
   * A third feature is tied to all of them, so that of the two places one is ruled out by the distances among four
   * features alone.
   */
  readonly braced: boolean;
  /** How loosely, as it counts for the choice: by the three distances alone where the two are held to each other. */
  readonly rank: number;
}

/** The two that hold a feature best; null where no two stand. */
const bestPair = (at: Point, anchors: readonly (Bond & Stood)[], bonds: Bonds): Pair | null => {
  let best: Pair | null = null;
  for (const [i, a] of anchors.entries()) {
    for (const b of anchors.slice(i + 1)) {
      const loose = looseness(at, a, b);
      const between = bonds[a.to]?.get(b.to)?.sigma;
      const braced =
        between !== undefined &&
        anchors.some((c) => bonds[c.to]?.has(a.to) === true && bonds[c.to]?.has(b.to) === true);
      const rank = between === undefined ? loose : looseness(at, { ...a, loose: 0 }, { ...b, loose: between });
      if (best === null || rank < best.rank) best = { pair: [a.to, b.to], loose, braced, rank };
    }
  }
  return best;
};

/** What is held by more features comes first, that which four features alone settle before all else. */
const comesFirst = (one: Pair & { readonly anchors: number }, than: Pair & { readonly anchors: number }): boolean => {
  if (one.braced !== than.braced) return one.braced;
  return one.anchors > than.anchors || (one.anchors === than.anchors && one.rank < than.rank);
};

/**
 * The arrangement with one feature more, in each place that two distances give and no other plainly rules out; null
 * where the two only just meet, and tell too little.
 */
const withOne = (
  arrangement: Arrangement,
  f: number,
  bonds: Bonds,
  pair: readonly [number, number],
): readonly Arrangement[] | null => {
  const anchors = standing(arrangement, bonds[f]);
  const [a, b] = pair.map((to) => anchors.find((c) => c.to === to));
  if (a === undefined || b === undefined) return [];
  const apart = distance(a.at, b.at);
  const gap = Math.max(apart - a.length - b.length, Math.abs(a.length - b.length) - apart);
  if (gap > FAR * (a.sigma + a.loose + b.sigma + b.loose)) return [];
  const places = intersectCircles({ centre: a.at, radius: a.length }, { centre: b.at, radius: b.length });
  if (places === null) return null;
  const between = bonds[a.to]?.get(b.to)?.sigma;
  const round = once(() => {
    const wanted = new Set(anchors.map((c) => c.to));
    return between === undefined ? null : looseRound(arrangement, bonds, [a.to, b.to], between, wanted);
  });
  return places.flatMap((at) => {
    const loose = looseness(at, a, b);
    const isOff = (c: Bond & Stood, by: number): boolean =>
      Math.abs(distance(at, c.at) - c.length) > FAR * (c.sigma + by);
    const isTied = (c: Bond & Stood): boolean => between !== undefined && c !== a && c !== b;
    /** Against the two themselves, by the distances among the four features alone, where there are all. */
    const isOffBraced = (c: Bond & Stood): boolean => {
      const [ca, cb] = [bonds[c.to]?.get(a.to), bonds[c.to]?.get(b.to)];
      if (between === undefined || ca === undefined || cb === undefined) return false;
      const own = looseness(c.at, { ...a, ...ca, loose: 0 }, { ...b, ...cb, loose: between });
      return isOff(c, own + looseness(at, { ...a, loose: 0 }, { ...b, loose: between }));
    };
    /** The same by way of others near by, so that the errors of all that lies farther off do not hide it. */
    const isOffNearby = (c: Bond & Stood): boolean => {
      const near = round();
      const [la, lb, lc] = [a, b, c].map((p) => near?.get(p.to));
      if (la === undefined || lb === undefined || lc === undefined) return false;
      return isOff(c, lc + looseness(at, { ...a, loose: la }, { ...b, loose: lb }));
    };
    const doubted = anchors.filter((c) => isOff(c, 0));
    const ruledOut =
      doubted.some((c) => isOff(c, c.loose + loose) || (isTied(c) && isOffBraced(c))) ||
      doubted.some((c) => isTied(c) && isOffNearby(c));
    return ruledOut ? [] : [arrangement.with(f, { at, loose })];
  });
};

/** The stoutest triangle of distances: its corners, and how loosely they hold each other. */
const firstTriangle = (
  at: readonly Point[],
  bonds: Bonds,
): { readonly corners: readonly number[]; readonly loose: number } | null => {
  let best: { readonly corners: readonly number[]; readonly loose: number } | null = null;
  for (const [a, of] of bonds.entries()) {
    for (const ab of of.values()) {
      if (ab.to < a) continue;
      for (const bc of bonds[ab.to]?.values() ?? []) {
        const ca = bc.to < ab.to ? undefined : of.get(bc.to);
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
 * All arrangements that the readings leave beside the one that they fit at `x`, itself among them, apart from mirror
 * images of the whole and for those in which solids overlap. From a triangle on, or from the places read on a table,
 * feature by feature, each is put where two distances from those that stand let it lie, in both places; what a third
 * distance plainly contradicts is dropped. (Bilateration: Fang, Cao, Morse & Anderson 2009, Sequential localization of
 * sensor networks, from memory.) Null where the readings are of other kinds, hold too loosely to say, or leave too
 * many.
 */
export const arrangementsBeside = (sketch: Sketch, x: Float64Array): readonly Float64Array[] | null => {
  const at = sketch.slots.map((_, f) => pointOf(sketch, x, f));
  const bonds = bondsOf(sketch, at);
  const table = onTable(sketch);
  const first = table.size > 1 ? null : firstTriangle(at, bonds);
  const begun = first === null ? table : new Map(first.corners.map((f) => [f, first.loose]));
  if (begun.size < 2) return null;
  let found: Arrangement = at.map((p, f) => {
    const loose = begun.get(f);
    return loose === undefined ? null : { at: p, loose };
  });
  let all: readonly Arrangement[] = [found];
  /** Features that some of those that stand hold, and how; null: to be looked at again. */
  const held = new Map<number, (Pair & { readonly anchors: number }) | null>();
  const reached = (from: number): void => {
    for (const to of bonds[from]?.keys() ?? []) if (found[to] === null) held.set(to, null);
  };
  for (const f of begun.keys()) reached(f);
  for (let stand = begun.size; stand < at.length; stand++) {
    let next: (Pair & { readonly f: number; readonly anchors: number }) | null = null;
    for (const [f, known] of held) {
      const anchors = known === null ? standing(found, bonds[f]) : [];
      const pair = known ?? bestPair(at[f] as Point, anchors, bonds);
      if (pair === null) continue;
      const one = { f, anchors: anchors.length, ...pair };
      if (known === null) held.set(f, one);
      if (next === null || comesFirst(one, next)) next = one;
    }
    if (next === null) return null;
    const { f, pair, loose } = next;
    found = found.with(f, { at: at[f] as Point, loose });
    held.delete(f);
    reached(f);
    const grown = all.map((arrangement) => withOne(arrangement, f, bonds, pair));
    if (grown.some((g) => g === null)) return null;
    all = grown.flatMap((g) => g ?? []).filter((g) => isFree(sketch, g, f));
    if (all.length > MOST) return null;
  }
  return all.map((arrangement) => {
    const there = Float64Array.from(x);
    for (const [f, stood] of arrangement.entries()) if (stood !== null) setPoint(sketch, there, f, stood.at);
    return there;
  });
};
