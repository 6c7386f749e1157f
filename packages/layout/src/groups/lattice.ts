import type { Measured } from '../measured/points.js';
import type { Lattice } from './group.js';
import { patterns } from './lattice/patterns.js';
import { rectangles } from './lattice/rectangles.js';
import { MANY, keyOf } from './near.js';

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
