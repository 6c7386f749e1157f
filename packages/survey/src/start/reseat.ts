import { type Point, distance } from '@fayplate/core';
import { damped } from '../adjust/solver.js';
import { type Equations, linearise, normalMatrix, scalesOf } from '../adjust/system.js';
import { factorise } from '../sparse/factor.js';
import { selectedInverse } from '../sparse/inverse.js';
import { lineThrough, nearestOn } from './locus.js';
import { type Known, costAt, placements } from './place.js';
import { type Sketch, placeIn, putIn, strainOf } from './sketch.js';
import { type Slid, slide } from './slide.js';

/** Two sums of squares that no shop could tell apart. */
export const asLow = (a: number, b: number): boolean => a <= b + 1e-6 * (1 + b);

/** How much worse a place may look, its neighbours not yet moved, and still be tried. */
const HOPE = 25;
/** Places nearer than this are one, mm. */
const LEAST_MOVE = 0.3;
const MOST_GIVE = 10;

/** Mirror image of a point in the line through two others; null where these coincide. */
const mirrored = (p: Point, a: Point, b: Point): Point | null => {
  const line = lineThrough(a, b);
  if (line === null) return null;
  const foot = nearestOn(line, p);
  return { x: 2 * foot.x - p.x, y: 2 * foot.y - p.y };
};

/**
 * How far each feature gives way, mm: its standard uncertainty where it lies. Places that the others can follow to are worth a trial,
 * however badly they fit while the others stand still.
 */
export const giveOf = (sketch: Sketch, equations: Equations, x: Float64Array): Float64Array => {
  const at = linearise(equations, x, []);
  const scales = scalesOf(equations, at.slopes);
  const { diagonal } = selectedInverse(factorise(damped(normalMatrix(equations, at.slopes, scales), 1e-9), 1e-11));
  const variance = (slot: number): number => (diagonal[equations.pattern.rank[slot] as number] as number) * (scales[slot] as number) ** 2;
  return Float64Array.from(sketch.slots, (s) => Math.min(Math.max(Math.sqrt(variance(s.x) + variance(s.y)), 0.1), MOST_GIVE));
};

/** Other places for one feature: those that its own ties allow, and its mirror images in the lines between the features it is tied to. */
export const otherPlaces = (sketch: Sketch, x: Float64Array, f: number, give: Float64Array): readonly Point[] => {
  const ties = (sketch.tiesOf[f] ?? []).flatMap((t) => sketch.ties[t] ?? []);
  const known: Known = { sketch, x: Float64Array.from(x), spread: give };
  const here = placeIn(sketch, x, f);
  const cost = costAt(known, ties, f, here);
  const near = [...new Set(ties.flatMap((t) => t.ends))].filter((e) => e !== f).slice(0, 8);
  const images = near.flatMap((a, i) => near.slice(i + 1).flatMap((b) => mirrored(here, placeIn(sketch, x, a), placeIn(sketch, x, b)) ?? []));
  const found = [...placements(known, ties, f, LEAST_MOVE).map((p) => p.at), ...images];
  const kept: { readonly at: Point; readonly cost: number }[] = [];
  for (const at of found) {
    if (distance(at, here) < LEAST_MOVE || kept.some((k) => distance(k.at, at) < LEAST_MOVE)) continue;
    const there = costAt(known, ties, f, at);
    if (there < cost + HOPE) kept.push({ at, cost: there });
  }
  return kept.sort((a, b) => a.cost - b.cost).map((k) => k.at);
};

/** Quick look at a place: so many turns, and χ² within this of the best, or it is given up. */
const LOOK = { turns: 4, factor: 10, over: 200 } as const;
const PASSES = 3;

/**
 * Features in turn, the most strained first and at most `most`, tried in the other places that their ties allow (a hole on the wrong side
 * of the line between two others); a place is kept where χ² falls, or stays while the arrangement is the `preferred` one.
 */
export const reseat = (sketch: Sketch, equations: Equations, from: Slid, preferred: (a: Float64Array, b: Float64Array) => boolean, most: number): Slid => {
  let best = from;
  for (let pass = 0; pass < PASSES; pass++) {
    let moved = false;
    const give = giveOf(sketch, equations, best.x);
    const order = sketch.slots.map((_, f) => [strainOf(sketch, best.x, f), f] as const).sort((a, b) => b[0] - a[0]);
    for (const [, f] of order.slice(0, most)) {
      for (const at of otherPlaces(sketch, best.x, f, give)) {
        const x = Float64Array.from(best.x);
        putIn(sketch, x, f, at);
        const look = slide(equations, x, LOOK.turns);
        if (look.chi2 > LOOK.factor * best.chi2 + LOOK.over) continue;
        const end = slide(equations, look.x, 25);
        if (asLow(best.chi2, end.chi2) && !(asLow(end.chi2, best.chi2) && preferred(end.x, best.x))) continue;
        best = end;
        moved = true;
        break;
      }
    }
    if (!moved) break;
  }
  return best;
};
