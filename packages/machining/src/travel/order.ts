import { type Point, distance } from '@fayplate/core';
import { shortWay } from './improve.js';

/**
 * The sides from which every hole is approached, so that the screw's slack is always taken up the same way: −1 comes
 * from below, 1 from above, 0 either.
 */
export interface Approach {
  readonly x: -1 | 0 | 1;
  readonly y: -1 | 0 | 1;
  /** How far past the hole the table goes before it comes back, mm: more than the slack of the screw. */
  readonly past: number;
}

const axisVia = (from: number, to: number, side: -1 | 0 | 1, past: number): number => {
  if (side === 0 || from === to) return to;
  const comesFromSide = (to - from) * side < 0 && Math.abs(to - from) >= past;
  return comesFromSide ? to : to + side * past;
};

/** Where the table turns before it comes to `to` from the stated sides; null where the straight way already does. */
export const viaPoint = (from: Point | null, to: Point, approach: Approach | null): Point | null => {
  if (approach === null) return null;
  const start = from ?? { x: to.x - approach.x, y: to.y - approach.y };
  const via = {
    x: axisVia(start.x, to.x, approach.x, approach.past),
    y: axisVia(start.y, to.y, approach.y, approach.past),
  };
  return via.x === to.x && via.y === to.y ? null : via;
};

/** Table travel from one place to the next, mm, by way of the turning point where there is one. */
export const leg = (from: Point, to: Point, approach: Approach | null): number => {
  const via = viaPoint(from, to, approach);
  return via === null ? distance(from, to) : distance(from, via) + distance(via, to);
};

/** Travel along the places in the order given, mm. */
export const wayLength = (places: readonly Point[], approach: Approach | null): number =>
  places.slice(1).reduce((sum, p, i) => sum + leg(places[i] ?? p, p, approach), 0);

/**
 * The shortest way through all places, free to start and end at any, by dynamic programming over subsets
 * (Held & Karp 1962, J. SIAM 10, 196–210). `cost[i][j]` need not be symmetric. Time n²·2ⁿ: for n ≤ 16.
 */
export const shortestWay = (cost: readonly (readonly number[])[]): readonly number[] => {
  const n = cost.length;
  if (n === 0) return [];
  const full = 1 << n;
  const best = new Float64Array(full * n).fill(Infinity);
  const before = new Int8Array(full * n).fill(-1);
  for (let j = 0; j < n; j++) best[(1 << j) * n + j] = 0;
  for (let set = 1; set < full; set++) {
    for (let last = 0; last < n; last++) {
      const here = best[set * n + last] ?? Infinity;
      if (here === Infinity) continue;
      const row = cost[last] ?? [];
      for (let next = 0; next < n; next++) {
        if ((set >> next) & 1) continue;
        const at = (set | (1 << next)) * n + next;
        const reached = here + (row[next] ?? Infinity);
        if (reached < (best[at] ?? Infinity)) {
          best[at] = reached;
          before[at] = last;
        }
      }
    }
  }
  let set = full - 1;
  let last = 0;
  for (let j = 1; j < n; j++) if ((best[set * n + j] ?? Infinity) < (best[set * n + last] ?? Infinity)) last = j;
  const way: number[] = [];
  while (last >= 0) {
    way.push(last);
    const earlier = before[set * n + last] ?? -1;
    set &= ~(1 << last);
    last = earlier;
  }
  return way.reverse();
};

/** Up to this many places the way is the shortest there is; beyond, within 5 % of it. */
const EXACT_UP_TO = 12;

/** The order in which one tool visits its places, as indices: the shortest open way, its ends free. */
export const orderOfTravel = (places: readonly Point[], approach: Approach | null): readonly number[] => {
  const cost = places.map((a) => places.map((b) => leg(a, b, approach)));
  return places.length <= EXACT_UP_TO ? shortestWay(cost) : shortWay(cost);
};

/**
 * The orders of several tools that follow each other, the table standing still while a tool is changed: each tool's own
 * way is kept shortest, and each is run from the end that makes the sum of the joins least.
 */
export const orderOfTools = (
  tools: readonly (readonly Point[])[],
  approach: Approach | null,
): readonly (readonly number[])[] => {
  const known = new Map<string, readonly number[]>();
  const ways = tools.map((places) => {
    const key = places.map((p) => `${p.x} ${p.y}`).join(' ');
    const way = known.get(key) ?? orderOfTravel(places, approach);
    known.set(key, way);
    const back = way.toReversed();
    const length = (w: readonly number[]): number => wayLength(laid(places, w), approach);
    return length(back) <= length(way) + 1e-9 ? [way, back] : [way];
  });
  let states: readonly {
    readonly cost: number;
    readonly end: Point | null;
    readonly chosen: readonly (readonly number[])[];
  }[] = [{ cost: 0, end: null, chosen: [] }];
  for (const [t, options] of ways.entries()) {
    const places = tools[t] ?? [];
    states = options.map((way) => {
      const run = laid(places, way);
      const first = run[0];
      const cheapest = states
        .map((s) => ({
          ...s,
          cost: s.cost + (s.end !== null && first !== undefined ? leg(s.end, first, approach) : 0),
        }))
        .reduce((a, b) => (b.cost < a.cost - 1e-12 ? b : a));
      return { cost: cheapest.cost, end: run.at(-1) ?? cheapest.end, chosen: [...cheapest.chosen, way] };
    });
  }
  return states.reduce((a, b) => (b.cost < a.cost - 1e-12 ? b : a)).chosen;
};

const laid = (places: readonly Point[], way: readonly number[]): readonly Point[] =>
  way.flatMap((i) => places[i] ?? []);
