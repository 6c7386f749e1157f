import { fitCircle } from './circle.js';
import type { Curve } from './offset.js';
import { type Point, centroid, distance, dot, polar, scale, subtract } from './point.js';

/**
 * The line of least squares through places (the principal axis of their scatter), pointing from the first to the last.
 */
export const fitLine = (points: readonly Point[]): Extract<Curve, { kind: 'line' }> => {
  const at = centroid(points);
  let [xx, xy, yy] = [0, 0, 0];
  for (const p of points) {
    const d = subtract(p, at);
    xx += d.x * d.x;
    xy += d.x * d.y;
    yy += d.y * d.y;
  }
  const along = polar(1, Math.atan2(2 * xy, xx - yy) / 2);
  const [first = at] = points;
  const last = points.at(-1) ?? at;
  return { kind: 'line', at, along: dot(along, subtract(last, first)) < 0 ? scale(along, -1) : along };
};

/** A run of places that one line or one arc goes through. */
export interface Run {
  readonly along: 'line' | 'arc';
  readonly points: readonly Point[];
}

interface Fit {
  readonly along: Run['along'];
  /** Sum of the squared departures, mm². */
  readonly squares: number;
}

/** An arc takes three places to draw at all; only a fourth shows that it is one. */
const LEAST = { line: 2, arc: 4 } as const;
/** An arc of a larger radius than this many times what it spans is a line, or an error. */
const FLAT = 20;

const departures = (points: readonly Point[], off: (p: Point) => number): readonly number[] =>
  points.map((p) => Math.abs(off(p)));

/** Whether places go on one way round a centre, and less than once: an arc, and no scatter about a circle. */
const goesRound = (points: readonly Point[], centre: Point): boolean => {
  let turned = 0;
  let way = 0;
  for (let i = 1; i < points.length; i++) {
    const [a, b] = [subtract(points[i - 1] ?? centre, centre), subtract(points[i] ?? centre, centre)];
    const step = Math.atan2(a.x * b.y - a.y * b.x, dot(a, b));
    if (way !== 0 && step * way < 0) return false;
    way = way === 0 ? step : way;
    turned += Math.abs(step);
  }
  return turned < 2 * Math.PI;
};

/** A line where one goes through all of them to within `within`, else an arc; null where neither does. */
const fitOf = (points: readonly Point[], within: number): Fit | null => {
  const squares = (all: readonly number[]): number => all.reduce((s, d) => s + d * d, 0);
  if (points.length < LEAST.line) return null;
  const line = fitLine(points);
  const offLine = departures(points, (p) => {
    const d = subtract(p, line.at);
    return d.x * line.along.y - d.y * line.along.x;
  });
  if (Math.max(...offLine) <= within) return { along: 'line', squares: squares(offLine) };
  const circle = points.length < LEAST.arc ? null : fitCircle(points);
  if (circle === null || !goesRound(points, circle.centre)) return null;
  const span = Math.max(...points.map((p) => distance(p, points[0] ?? p)));
  const offArc = departures(points, (p) => distance(p, circle.centre) - circle.radius);
  return circle.radius <= FLAT * span && Math.max(...offArc) <= within
    ? { along: 'arc', squares: squares(offArc) }
    : null;
};

interface Plan {
  readonly runs: number;
  readonly arcs: number;
  readonly squares: number;
  readonly from: number;
  readonly fit: Fit;
}

const better = (a: Plan, b: Plan | null): boolean =>
  b === null ||
  a.runs < b.runs ||
  (a.runs === b.runs && (a.arcs < b.arcs || (a.arcs === b.arcs && a.squares < b.squares - 1e-15)));

/** Longer runs are not tried once this many more places have fitted neither a line nor an arc. */
const GIVE_UP = 3;

/**
 * The fewest lines and arcs that go through places in their order, each place within `within` mm of its own; of as few
 * the one with fewest arcs, then the one of least squares. `closed`: the last place is followed by the first. Every
 * place lies on one run. Null for fewer than two. Dynamic programming over the last place of each run (R. Bellman 1961,
 * On the approximation of curves by line segments).
 */
export const fewestRuns = (points: readonly Point[], within: number, closed: boolean): readonly Run[] | null => {
  const n = points.length;
  if (n < 2) return null;
  const at = (i: number): Point => points[i % n] as Point;
  /** For each first place, what fits the run of each length. */
  const fits = points.map((_, i) => {
    const found = new Map<number, Fit>();
    let misses = 0;
    for (let length = LEAST.line; length <= (closed ? n : n - i) && misses < GIVE_UP + LEAST.arc; length++) {
      const fit = fitOf(
        Array.from({ length }, (__, k) => at(i + k)),
        within,
      );
      if (fit === null) misses++;
      else {
        misses = 0;
        found.set(length, fit);
      }
    }
    return found;
  });
  const planFrom = (start: number): readonly (Plan | null)[] => {
    // plans[k]: the best way to cover the first k places behind `start`.
    const plans: (Plan | null)[] = Array.from({ length: n + 1 }, () => null);
    for (let k = 0; k < n; k++) {
      const so = k === 0 ? { runs: 0, arcs: 0, squares: 0 } : plans[k];
      if (so == null) continue;
      for (const [length, fit] of fits[(start + k) % n] ?? []) {
        if (k + length > n) continue;
        const plan: Plan = {
          runs: so.runs + 1,
          arcs: so.arcs + (fit.along === 'arc' ? 1 : 0),
          squares: so.squares + fit.squares,
          from: k,
          fit,
        };
        if (better(plan, plans[k + length] ?? null)) plans[k + length] = plan;
      }
    }
    return plans;
  };
  let best: { readonly start: number; readonly plans: readonly (Plan | null)[]; readonly last: Plan } | null = null;
  for (let start = 0; start < (closed ? n : 1); start++) {
    const plans = planFrom(start);
    const last = plans[n] ?? null;
    if (last !== null && better(last, best?.last ?? null)) best = { start, plans, last };
  }
  if (best === null) return null;
  const runs: Run[] = [];
  let end = n;
  while (end > 0) {
    const plan: Plan | null = best.plans[end] ?? null;
    if (plan === null) return null;
    const { start } = best;
    runs.unshift({
      along: plan.fit.along,
      points: Array.from({ length: end - plan.from }, (_, k) => at(start + plan.from + k)),
    });
    end = plan.from;
  }
  return runs;
};
