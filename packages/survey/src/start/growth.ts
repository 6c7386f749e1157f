import { type Point, centroid, subtract } from '@fayplate/core';
import type { Equations } from '../adjust/system.js';
import { levenbergMarquardt } from './levenberg-marquardt.js';
import type { Known, Placement } from './place.js';
import { type Sketch, type Tie, blankOf, pointOf, setPoint } from './sketch.js';

/**
 * How far an arrangement is from the clocks, turned as agrees best with them: Σ 2·(1 − cos δ), which for small
 * differences is the sum of squared clock differences, radians². Features without a place or a clock are left out; 0
 * where the centre has no place.
 * `centre` null: the clocks run about the mean of the places.
 */
const clockDifference = (
  clocks: readonly (number | null)[],
  places: readonly (Point | null)[],
  centre: number | null,
): number => {
  const middle = centre === null ? centroid(places.filter((p) => p !== null)) : (places[centre] ?? null);
  if (middle === null) return 0;
  let c = 0;
  let s = 0;
  let n = 0;
  for (const [f, clock] of clocks.entries()) {
    const p = places[f] ?? null;
    if (clock === null || p === null || f === centre) continue;
    const v = subtract(p, middle);
    if (v.x === 0 && v.y === 0) continue;
    const d = Math.atan2(v.y, v.x) - clock;
    c += Math.cos(d);
    s += Math.sin(d);
    n++;
  }
  return 2 * (n - Math.hypot(c, s));
};

/** One trial arrangement as it grows, one centre at a time. */
export interface Growth extends Known {
  readonly placed: Uint8Array;
  /** For each feature not placed, where it may go by the ties whose other ends are placed; null: not worked out yet. */
  readonly options: (readonly Placement[] | null)[];
  readonly ready: Int32Array;
  readonly left: Int32Array;
  readonly cost: number;
  readonly clock: number;
  /** All centres so far lie on the seed's line: the two mirror images are still one. */
  readonly straight: boolean;
}

/** A clock is right to about this, radians: it weighs arrangements against each other only here. */
const CLOCK_SIGMA = 0.45;

const placedList = (sketch: Sketch, g: Growth): (Point | null)[] =>
  sketch.slots.map((_, f) => (g.placed[f] === 1 ? pointOf(sketch, g.x, f) : null));

export const readyTies = (sketch: Sketch, g: Growth, f: number): readonly Tie[] =>
  (sketch.tiesOf[f] ?? []).flatMap((t) => {
    const tie = sketch.ties[t];
    return tie !== undefined && g.left[t] === 1 ? [tie] : [];
  });

/** One more centre put down in place; features whose options change by it forget them. */
export const place = (sketch: Sketch, g: Growth, f: number, p: Placement): void => {
  setPoint(sketch, g.x, f, p.at);
  g.placed[f] = 1;
  g.spread[f] = p.spread;
  g.options[f] = [];
  for (const t of sketch.tiesOf[f] ?? []) {
    g.left[t] = (g.left[t] ?? 0) - 1;
    if (g.left[t] !== 1) continue;
    const last = sketch.ties[t]?.ends.find((e) => g.placed[e] === 0);
    if (last === undefined) continue;
    g.ready[last] = (g.ready[last] ?? 0) + 1;
    g.options[last] = null;
  }
};

/** The arrangement with one more centre, the given one left as it is. */
export const withPlaced = (sketch: Sketch, g: Growth, f: number, p: Placement, straight: boolean): Growth => {
  const next: Growth = {
    sketch,
    x: Float64Array.from(g.x),
    spread: Float64Array.from(g.spread),
    placed: Uint8Array.from(g.placed),
    options: [...g.options],
    ready: Int32Array.from(g.ready),
    left: Int32Array.from(g.left),
    cost: g.cost + p.cost,
    clock: 0,
    straight,
  };
  place(sketch, next, f, p);
  return { ...next, clock: clockDifference(sketch.clocks, placedList(sketch, next), sketch.centre) / CLOCK_SIGMA ** 2 };
};

export const empty = (sketch: Sketch): Growth => {
  const left = Int32Array.from(sketch.ties, (t) => t.ends.length);
  const ready = new Int32Array(sketch.slots.length);
  for (const { ends } of sketch.ties) {
    const [only = 0] = ends;
    if (ends.length === 1) ready[only] = (ready[only] ?? 0) + 1;
  }
  return {
    sketch,
    x: blankOf(sketch),
    spread: new Float64Array(sketch.slots.length),
    placed: new Uint8Array(sketch.slots.length),
    options: sketch.slots.map(() => null),
    ready,
    left,
    cost: 0,
    clock: 0,
    straight: true,
  };
};

/** Ties that hold a feature fast, once it has been adjusted into its place among them. */
export const FAST = 3;
/** How loosely they hold it then, in blurs. */
export const FAST_SPREAD = 0.1;

/**
 * The arrangement with all that stands so far adjusted together: the small errors of one centre placed from another do
 * not pile up, and its cost is then the χ² of the readings between centres that stand.
 */
export const relaxed = (equations: Equations, g: Growth): Growth => {
  const { sketch } = g;
  const held = new Set(sketch.ties.flatMap((tie, t) => ((g.left[t] ?? 0) > 0 ? tie.observations : [])));
  const active = sketch.network.observations.map((o) => !held.has(o));
  const { x, chi2 } = levenbergMarquardt(equations, g.x, 8, 1e-3, active);
  const spread = Float64Array.from(g.spread, (s, f) => {
    const fast = (sketch.tiesOf[f] ?? []).filter((t) => g.left[t] === 0).length >= FAST;
    return fast ? Math.min(s, FAST_SPREAD * sketch.blur) : s;
  });
  return { ...g, x, spread, cost: chi2, options: g.options.map((o, f) => (g.placed[f] === 1 ? o : null)) };
};
