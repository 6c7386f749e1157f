import { type Point, distance } from '@fayplate/core';

export type Pair = readonly [number, number];

/** Below this share of a unit row left over, a distance says too little that others do not say already. */
const TELLING = [0.2, 0.05, 0.01, 1e-4] as const;

/**
 * The fewest distances that fix every place, apart from where the whole lies: 2n − 3 pairs whose derivatives (the rows
 * of the survey's own Jacobian) are independent, the farthest first. Greedy choice is best possible among all such
 * sets, independence being a matroid; the first pass takes only pairs that say plenty beyond the others, so that none
 * hangs by a glancing distance.
 */
export const rigidPairs = (places: readonly Point[]): readonly Pair[] => {
  const wanted = Math.max(0, 2 * places.length - 3);
  const pairs = farthestFirst(places);
  const rows: Float64Array[] = [];
  const chosen: Pair[] = [];
  const taken = new Set<Pair>();
  const take = (pair: Pair, telling: number): boolean => {
    const left = remainder(rowOf(places, pair), rows);
    const size = length(left);
    if (size < telling) return false;
    rows.push(left.map((v) => v / size));
    return true;
  };
  for (const telling of TELLING) {
    for (const pair of pairs) {
      if (rows.length >= wanted) break;
      if (taken.has(pair) || !take(pair, telling)) continue;
      chosen.push(pair);
      taken.add(pair);
    }
  }
  return chosen.sort((a, b) => span(places, b) - span(places, a));
};

/** All pairs, or for many places each one's dozen farthest and its eight nearest, the farthest first. */
export const farthestFirst = (places: readonly Point[]): readonly Pair[] => {
  const n = places.length;
  const keep = new Map<string, Pair>();
  for (let i = 0; i < n; i++) {
    const others = Array.from({ length: n }, (_, j) => j).filter((j) => j !== i && span(places, [i, j]) > 1e-9);
    others.sort((a, b) => span(places, [i, b]) - span(places, [i, a]) || a - b);
    for (const j of n <= 40 ? others : [...others.slice(0, 12), ...others.slice(-8)])
      keep.set(`${Math.min(i, j)} ${Math.max(i, j)}`, [Math.min(i, j), Math.max(i, j)]);
  }
  return [...keep.values()].sort((a, b) => span(places, b) - span(places, a) || a[0] - b[0] || a[1] - b[1]);
};

const span = (places: readonly Point[], [i, j]: Pair): number => {
  const a = places[i];
  const b = places[j];
  return a === undefined || b === undefined ? 0 : distance(a, b);
};

/** ∂|AB|/∂(x, y) of every place, scaled to length 1. */
const rowOf = (places: readonly Point[], pair: Pair): Float64Array => {
  const row = new Float64Array(2 * places.length);
  const [i, j] = pair;
  const a = places[i] ?? { x: 0, y: 0 };
  const b = places[j] ?? { x: 0, y: 0 };
  const k = Math.SQRT1_2 / distance(a, b);
  row[2 * i] = (a.x - b.x) * k;
  row[2 * i + 1] = (a.y - b.y) * k;
  row[2 * j] = (b.x - a.x) * k;
  row[2 * j + 1] = (b.y - a.y) * k;
  return row;
};

const length = (v: Float64Array): number => Math.sqrt(v.reduce((s, q) => s + q * q, 0));

/** What is left of the row beside the rows chosen so far (Gram–Schmidt, done twice for its rounding). */
const remainder = (row: Float64Array, rows: readonly Float64Array[]): Float64Array => {
  const left = row.slice();
  for (let pass = 0; pass < 2; pass++) {
    for (const unit of rows) {
      let along = 0;
      for (let k = 0; k < left.length; k++) along += (left[k] ?? 0) * (unit[k] ?? 0);
      if (along !== 0) for (let k = 0; k < left.length; k++) left[k] = (left[k] ?? 0) - along * (unit[k] ?? 0);
    }
  }
  return left;
};
