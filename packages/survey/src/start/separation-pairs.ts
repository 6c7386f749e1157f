import { type Line, lineThrough, mirroredIn } from './locus.js';
import { type Sketch, placeIn, putIn } from './sketch.js';

/**
 * Two features, and others that no reading ties to the rest but through these two: they may lie on either side of the
 * line.
 */
export interface SeparationPair {
  readonly pins: readonly [number, number];
  readonly part: readonly number[];
}

/** Above so many features separation pairs are not looked for: the search grows with the cube of their number. */
const MOST = 150;

/** Groups that hang together when some features are taken out: those whose place in `out` holds a 1. */
export const groupsWithout = (sketch: Sketch, out: Uint8Array): readonly (readonly number[])[] => {
  const seen = Uint8Array.from(out);
  const groups: number[][] = [];
  for (let first = 0; first < seen.length; first++) {
    if (seen[first] === 1) continue;
    seen[first] = 1;
    const group = [first];
    for (const f of group) {
      for (const t of sketch.tiesOf[f] ?? []) {
        for (const e of sketch.ties[t]?.ends ?? []) {
          if (seen[e] === 1) continue;
          seen[e] = 1;
          group.push(e);
        }
      }
    }
    groups.push(group);
  }
  return groups;
};

/** Whether a tie to the bench holds a group to the ground that is common to all such. */
export const onBench = (sketch: Sketch, group: readonly number[]): boolean =>
  group.some((f) => (sketch.tiesOf[f] ?? []).some((t) => sketch.ties[t]?.ends.length === 1));

/**
 * Every separation pair of the face; of two groups on one pair of pins that make up the whole only the smaller, since
 * turning one or the other differs by the hand alone.
 */
export const separationPairsOf = (sketch: Sketch): readonly SeparationPair[] => {
  const count = sketch.slots.length;
  if (count > MOST) return [];
  const pairs: SeparationPair[] = [];
  for (let a = 0; a < count; a++) {
    for (let b = a + 1; b < count; b++) {
      const groups = groupsWithout(
        sketch,
        Uint8Array.from({ length: count }, (_, f) => (f === a || f === b ? 1 : 0)),
      );
      if (groups.length < 2) continue;
      const free = groups.filter((g) => !onBench(sketch, g)).sort((p, q) => p.length - q.length);
      const reflections = groups.length === 2 && free.length === 2 ? free.slice(0, 1) : free;
      for (const part of reflections) pairs.push({ pins: [a, b], part });
    }
  }
  return pairs;
};

/** The arrangement with some features reflected in a line. */
export const reflectAbout = (sketch: Sketch, x: Float64Array, line: Line, features: Iterable<number>): Float64Array => {
  const out = Float64Array.from(x);
  for (const f of features) putIn(sketch, out, f, mirroredIn(line, placeIn(sketch, x, f)));
  return out;
};

/** The arrangement with the part reflected in the line of its pins: every reading is as before. */
export const reflectIn = (sketch: Sketch, x: Float64Array, { pins: [a, b], part }: SeparationPair): Float64Array => {
  const line = lineThrough(placeIn(sketch, x, a), placeIn(sketch, x, b));
  return line === null ? Float64Array.from(x) : reflectAbout(sketch, x, line, part);
};
