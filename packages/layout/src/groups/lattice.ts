import { distance, heading, midpoint, subtract } from '@fayplate/core';
import type { Measured } from '../measured.js';
import type { Lattice } from './group.js';
import { MANY, aboutMiddle, along, at, keyOf, reach } from './near.js';
import { patterns } from './patterns.js';

const MOST_KEPT = 16;

/** Rectangular patterns and evenly spaced rows of these features, those of most first. */
export const lattices = (measured: Measured, features: readonly number[]): readonly Lattice[] => {
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
export const rectangles = (measured: Measured, features: readonly number[]): readonly Lattice[] => {
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
