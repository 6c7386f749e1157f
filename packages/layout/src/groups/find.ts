import { distance, heading, midpoint, subtract } from '@fayplate/core';
import type { Measured } from '../measured.js';
import { divide } from './divide.js';
import { grids } from './grid.js';
import type { Group, Lattice } from './group.js';
import { polarOf } from './headings.js';
import { mirroredRing, mirrors, opposites, pairsAbout } from './mirror.js';
import { MANY, aboutMiddle, along, at, keyOf, reach } from './near.js';
import { patterns } from './patterns.js';
import { type RingSet, ringSets } from './rings.js';

const MOST_KEPT = 16;

/** Rectangular patterns and evenly spaced rows of these features, those of most first. */
const lattices = (measured: Measured, features: readonly number[]): readonly Lattice[] => {
  if (features.length < 3 || features.length > MANY) return [];
  const seen = new Set<string>();
  return [...rectangles(measured, features), ...patterns(measured, features)]
    .filter((l) => {
      const key = `${keyOf(l.members)} ${'feature' in l.about} ${l.square} ${l.columns} ${l.rows}`;
      if (seen.has(key)) return false;
      seen.add(key);
      return true;
    })
    .sort((a, b) => b.members.length - a.members.length)
    .slice(0, MOST_KEPT);
};

/** Rectangles by their diagonals: two pairs of features with the same middle and the same length. */
const rectangles = (measured: Measured, features: readonly number[]): readonly Lattice[] => {
  const pairs = features.flatMap((a, i) =>
    features.slice(i + 1).map((b) => ({
      a,
      b,
      middle: midpoint(at(measured, a), at(measured, b)),
      length: distance(at(measured, a), at(measured, b)),
    })),
  );
  const found: Lattice[] = [];
  for (const [i, p] of pairs.entries()) {
    for (const q of pairs.slice(i + 1)) {
      if (Math.abs(p.length - q.length) > p.length * 0.2 || p.a === q.a || p.a === q.b || p.b === q.a || p.b === q.b)
        continue;
      const wide = reach(measured, [p.a, p.b, q.a, q.b]);
      if (Math.abs(p.length - q.length) > wide || distance(p.middle, q.middle) > wide) continue;
      // Corners in turn: p.a, q.a, p.b, q.b; the first side is the axis.
      const [a, b, c] = [at(measured, p.a), at(measured, q.a), at(measured, p.b)];
      const axis = heading(subtract(b, a));
      const pitch = [distance(a, b), distance(b, c)] as const;
      if (Math.min(...pitch) < wide) continue;
      const low = along(c, a, axis)[1] > 0 ? 0 : 1;
      const members = [p.a, q.a, p.b, q.b];
      const places = [
        [0, low],
        [1, low],
        [1, 1 - low],
        [0, 1 - low],
      ] as const;
      for (const about of aboutMiddle(measured, members, midpoint(p.middle, q.middle))) {
        const base = { kind: 'array', members, about, columns: 2, rows: 2, pitch, axis, places } as const;
        found.push({ ...base, square: false });
        if (Math.abs(pitch[0] - pitch[1]) <= wide) found.push({ ...base, square: true });
      }
    }
  }
  return found;
};

const onCircle = (measured: Measured, set: RingSet): readonly Group[] => {
  const divided = divide(measured, set);
  if (set.members.length < ('own' in set.about ? 4 : 2)) return divided;
  const { headings } = polarOf(measured, set.members, set.about);
  return [...divided, { kind: 'circle', members: set.members, about: set.about, headings, diameter: set.diameter }];
};

/**
 * Groups that the centres suggest; the list is bounded and the evidence decides among them. Those that place features
 * outright:
 */
export const findPlaced = (measured: Measured, sets: readonly RingSet[]): readonly Group[] => [
  ...sets.flatMap((set) => onCircle(measured, set)),
  ...lattices(measured, measured.fasteners),
  ...grids(measured, measured.fasteners),
];

/** … and those that only say how features mirror one another. */
export const findSymmetries = (measured: Measured, sets: readonly RingSet[]): readonly Group[] => [
  ...sets.flatMap((set) => mirroredRing(measured, set)),
  ...mirrors(measured, measured.fasteners),
  ...opposites(measured, measured.fasteners),
];

/** The groups that rough work may have been meant for: equal divisions, rows and rectangular patterns. */
export const findRegular = (measured: Measured): readonly Group[] => [
  ...ringSets(measured).flatMap((set) => divide(measured, set)),
  ...lattices(measured, measured.fasteners),
];

/**
 * Circles among features that a composition leaves single: a pair of dowels is easily crowded out of the whole face's
 * list.
 */
const circlesAmong = (measured: Measured, singles: readonly number[]): readonly Group[] => {
  if (singles.length === measured.fasteners.length) return [];
  const alone = { ...measured, fasteners: singles };
  return ringSets(alone).flatMap((set) => onCircle(alone, set));
};

/** Groups among features that a composition leaves single, whose directions may follow the composition's own. */
export const findMore = (
  measured: Measured,
  singles: readonly number[],
  headings: readonly number[],
): readonly Group[] => [
  ...circlesAmong(measured, singles),
  ...grids(measured, singles, headings, singles.length >= 3),
  ...lattices(measured, singles),
  ...mirrors(measured, singles),
  ...(headings.length > 0 ? pairsAbout(measured, singles) : []),
  ...opposites(measured, singles),
];
