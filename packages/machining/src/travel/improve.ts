import { type Random, randomFrom } from '@fayplate/core';

/**
 * A short way through many places, free to start and end at any: nearest neighbour, then turning stretches round
 * (2-opt) and moving short stretches elsewhere (Or-opt) until nothing gains, then many seeded kicks (Lin, Kernighan &
 * others' double bridge). Free ends are had by one more place, the last index, that costs nothing to reach or leave.
 * Costs need not be symmetric.
 */
export const shortWay = (cost: readonly (readonly number[])[], seed = 1): readonly number[] => {
  const n = cost.length;
  if (n < 3) return cost.map((_, i) => i);
  const random = randomFrom(seed);
  const c = withNowhere(cost);
  // A kick costs some n² steps: fewer of them where there are many places, so that a thousand holes take seconds and
  // not minutes.
  const kicks = Math.max(3, Math.min(400, Math.floor(4e6 / n ** 2)));
  const starts = n > 100 ? 2 : 4;
  let best = settle(c, nearestNeighbour(c, 0, n));
  for (let s = 1; s < starts; s++) best = shorter(c, best, settle(c, nearestNeighbour(c, random.below(n), n)));
  for (let k = 0; k < kicks; k++) best = shorter(c, best, settle(c, doubleBridge(best, random)));
  return best.slice(1);
};

type Matrix = readonly Float64Array[];

const withNowhere = (cost: readonly (readonly number[])[]): Matrix => {
  const n = cost.length;
  return Array.from({ length: n + 1 }, (_, i) =>
    Float64Array.from({ length: n + 1 }, (_, j) => (i === n || j === n ? 0 : (cost[i]?.[j] ?? 0))),
  );
};

const at = (c: Matrix, i: number, j: number): number => c[i]?.[j] ?? 0;

const roundLength = (c: Matrix, tour: readonly number[]): number =>
  tour.reduce((sum, place, i) => sum + at(c, place, tour[(i + 1) % tour.length] ?? place), 0);

const shorter = (c: Matrix, a: readonly number[], b: readonly number[]): readonly number[] =>
  roundLength(c, b) < roundLength(c, a) - 1e-9 ? b : a;

/** A round that starts at nowhere, goes to `first`, and always on to the nearest place left. */
const nearestNeighbour = (c: Matrix, first: number, nowhere: number): readonly number[] => {
  const left = new Set(Array.from({ length: nowhere }, (_, i) => i));
  const tour = [nowhere];
  for (let here = first; ;) {
    tour.push(here);
    left.delete(here);
    let next = -1;
    for (const place of left) if (next < 0 || at(c, here, place) < at(c, here, next)) next = place;
    if (next < 0) return tour;
    here = next;
  }
};

/**
 * Cuts the round in four and joins the middle two the other way about: a change that neither move below can undo in one
 * step.
 */
const doubleBridge = (tour: readonly number[], random: Random): readonly number[] => {
  const n = tour.length;
  const [a = 1, b = 1, d = 1] = [1 + random.below(n - 1), 1 + random.below(n - 1), 1 + random.below(n - 1)].sort(
    (x, y) => x - y,
  );
  return [...tour.slice(0, a), ...tour.slice(b, d), ...tour.slice(a, b), ...tour.slice(d)];
};

const settle = (c: Matrix, start: readonly number[]): readonly number[] => {
  let tour = start;
  for (;;) {
    const next = turnStretch(c, tour) ?? moveStretch(c, tour);
    if (next === null) return tour;
    tour = next;
  }
};

/** Cost along the round forwards and backwards up to each place, so that a turned stretch is priced at once. */
const sums = (c: Matrix, tour: readonly number[]): { forward: Float64Array; backward: Float64Array } => {
  const forward = new Float64Array(tour.length);
  const backward = new Float64Array(tour.length);
  for (let i = 1; i < tour.length; i++) {
    const a = tour[i - 1] ?? 0;
    const b = tour[i] ?? 0;
    forward[i] = (forward[i - 1] ?? 0) + at(c, a, b);
    backward[i] = (backward[i - 1] ?? 0) + at(c, b, a);
  }
  return { forward, backward };
};

/** The most gainful turning round of places i … j, done; null where none gains. Place 0, nowhere, stays put. */
const turnStretch = (c: Matrix, tour: readonly number[]): readonly number[] | null => {
  const n = tour.length;
  const { forward, backward } = sums(c, tour);
  let gain = 1e-9;
  let best: readonly [number, number] | null = null;
  for (let i = 1; i < n - 1; i++) {
    const before = tour[i - 1] ?? 0;
    const first = tour[i] ?? 0;
    for (let j = i + 1; j < n; j++) {
      const last = tour[j] ?? 0;
      const after = tour[(j + 1) % n] ?? 0;
      const inside = (forward[j] ?? 0) - (forward[i] ?? 0) - (backward[j] ?? 0) + (backward[i] ?? 0);
      const g = at(c, before, first) + at(c, last, after) - at(c, before, last) - at(c, first, after) + inside;
      if (g > gain) {
        gain = g;
        best = [i, j];
      }
    }
  }
  if (best === null) return null;
  const [i, j] = best;
  return [...tour.slice(0, i), ...tour.slice(i, j + 1).reverse(), ...tour.slice(j + 1)];
};

/** The most gainful move of one to three neighbours to another gap, either way about, done; null where none gains. */
const moveStretch = (c: Matrix, tour: readonly number[]): readonly number[] | null => {
  const n = tour.length;
  let gain = 1e-9;
  let best: {
    readonly from: number;
    readonly length: number;
    readonly behind: number;
    readonly turned: boolean;
  } | null = null;
  for (let length = 1; length <= 3; length++) {
    for (let i = 1; i + length <= n; i++) {
      const piece = tour.slice(i, i + length);
      const first = piece[0] ?? 0;
      const last = piece.at(-1) ?? 0;
      const before = tour[i - 1] ?? 0;
      const after = tour[(i + length) % n] ?? 0;
      const freed = at(c, before, first) + at(c, last, after) - at(c, before, after);
      if (freed <= gain) continue;
      const turned = piece.slice(1).reduce((s, p, k) => s + at(c, p, piece[k] ?? 0) - at(c, piece[k] ?? 0, p), 0);
      // The round without the piece, from place 0 again behind its end.
      let p = tour[0] ?? 0;
      for (let k = 0; k < n - length; k++) {
        const q = tour[k + 1 === n - length ? 0 : k + 1 < i ? k + 1 : k + 1 + length] ?? 0;
        const gap = at(c, p, q);
        const straight = freed - (at(c, p, first) + at(c, last, q) - gap);
        const about = freed - (at(c, p, last) + at(c, first, q) - gap + turned);
        p = q;
        const g = Math.max(straight, about);
        if (g <= gain) continue;
        gain = g;
        best = { from: i, length, behind: k, turned: straight < about };
      }
    }
  }
  if (best === null) return null;
  const { from, behind, turned } = best;
  const piece = tour.slice(from, from + best.length);
  const rest = [...tour.slice(0, from), ...tour.slice(from + best.length)];
  return [...rest.slice(0, behind + 1), ...(turned ? piece.toReversed() : piece), ...rest.slice(behind + 1)];
};
