import { type Line, lineThrough, mirroredIn } from './locus.js';
import { type Sketch, pointOf, setPoint } from './sketch.js';

/**
 * Two features, and others that no reading ties to the rest but through these two: they may lie on either side of the
 * line.
 */
export interface SeparationPair {
  readonly pins: readonly [number, number];
  readonly part: readonly number[];
}

/**
 * Above so many features not every two are tried, which grows with the cube of their number, and no more pairs than
 * this are handed on.
 */
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
 * Features besides `out` without which the rest falls apart (articulation points, by a depth-first search: Hopcroft and
 * Tarjan, Communications of the ACM 16 (1973) 372–378, from memory).
 */
const cutPoints = (beside: readonly (readonly number[])[], out: number): readonly number[] => {
  const count = beside.length;
  const order = new Int32Array(count).fill(-1);
  const low = new Int32Array(count);
  const cut = new Uint8Array(count);
  let next = 0;
  for (let root = 0; root < count; root++) {
    if (root === out || order[root] !== -1) continue;
    order[root] = low[root] = next++;
    let branches = 0;
    const path: { readonly f: number; at: number }[] = [{ f: root, at: 0 }];
    for (let top = path.at(-1); top !== undefined; top = path.at(-1)) {
      const e = beside[top.f]?.[top.at++];
      if (e === out) continue;
      if (e === undefined) {
        path.pop();
        const from = path.at(-1)?.f;
        if (from === undefined) continue;
        low[from] = Math.min(low[from] ?? 0, low[top.f] ?? 0);
        if (from === root) branches++;
        else if ((low[top.f] ?? 0) >= (order[from] ?? 0)) cut[from] = 1;
      } else if (order[e] === -1) {
        order[e] = low[e] = next++;
        path.push({ f: e, at: 0 });
      } else low[top.f] = Math.min(low[top.f] ?? 0, order[e] ?? 0);
    }
    if (branches > 1) cut[root] = 1;
  }
  return Array.from(cut.keys()).filter((f) => cut[f] === 1);
};

/** Pins that are worth trying: all two of a small face; of a large one those that cut it, as many as are handed on. */
const pinsOf = (sketch: Sketch): readonly (readonly [number, number])[] => {
  const count = sketch.slots.length;
  const beside = sketch.tiesOf.map((ties, f) => ties.flatMap((t) => sketch.ties[t]?.ends ?? []).filter((e) => e !== f));
  if (count <= MOST)
    return Array.from(beside.keys()).flatMap((a) =>
      Array.from({ length: count - a - 1 }, (_, i) => [a, a + 1 + i] as const),
    );
  const pins: (readonly [number, number])[] = [];
  for (let a = 0; a < count && pins.length < MOST; a++)
    for (const b of cutPoints(beside, a)) if (b > a) pins.push([a, b]);
  return pins.slice(0, MOST);
};

/**
 * Every separation pair of the face, of a large one no more than so many; of two groups on one pair of pins that make
 * up the whole only the smaller, since turning one or the other differs by the hand alone.
 */
export const separationPairsOf = (sketch: Sketch): readonly SeparationPair[] => {
  const count = sketch.slots.length;
  const pairs: SeparationPair[] = [];
  for (const [a, b] of pinsOf(sketch)) {
    const groups = groupsWithout(
      sketch,
      Uint8Array.from({ length: count }, (_, f) => (f === a || f === b ? 1 : 0)),
    );
    if (groups.length < 2) continue;
    const free = groups.filter((g) => !onBench(sketch, g)).sort((p, q) => p.length - q.length);
    const reflections = groups.length === 2 && free.length === 2 ? free.slice(0, 1) : free;
    for (const part of reflections) pairs.push({ pins: [a, b], part });
  }
  return pairs;
};

/** The arrangement with some features reflected in a line. */
export const reflectAbout = (sketch: Sketch, x: Float64Array, line: Line, features: Iterable<number>): Float64Array => {
  const out = Float64Array.from(x);
  for (const f of features) setPoint(sketch, out, f, mirroredIn(line, pointOf(sketch, x, f)));
  return out;
};

/** The arrangement with the part reflected in the line of its pins: every reading is as before. */
export const reflectIn = (sketch: Sketch, x: Float64Array, { pins: [a, b], part }: SeparationPair): Float64Array => {
  const line = lineThrough(pointOf(sketch, x, a), pointOf(sketch, x, b));
  return line === null ? Float64Array.from(x) : reflectAbout(sketch, x, line, part);
};
