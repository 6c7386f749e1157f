import type { Point } from '@fayplate/core';
import { shortestWay } from './exact.js';
import { shortWay } from './improve.js';
import { type Approach, leg, wayLength } from './way.js';

/** Up to this many places the way is the shortest there is; beyond, within 5 % of it. */
export const EXACT_UP_TO = 12;

/** The order in which one tool visits its places, as indices: the shortest open way, its ends free. */
export const orderOfTravel = (places: readonly Point[], approach: Approach | null): readonly number[] => {
  const cost = places.map((a) => places.map((b) => leg(a, b, approach)));
  return places.length <= EXACT_UP_TO ? shortestWay(cost) : shortWay(cost);
};

/**
 * The orders of several tools that follow each other, the table standing still while a tool is changed: each tool's own way is kept shortest,
 * and each is run from the end that makes the sum of the joins least.
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
