import {
  type Edge,
  type Path,
  type Point,
  add,
  arcSweep,
  distance,
  edgesOf,
  polar,
  scale,
  subtract,
} from '@fayplate/core';

/** One edge of a path with where it starts. */
export type Step = readonly [from: Point, edge: Edge];

/** The same path run the other way about. */
export const reversed = (path: Path): Path => {
  const steps = edgesOf(path).toReversed();
  const end = steps[0]?.[1].to ?? path.start;
  return {
    start: end,
    closed: path.closed,
    edges: steps.map(([from, e]) => (e.kind === 'line' ? { kind: 'line', to: from } : { ...e, to: from, ccw: !e.ccw })),
  };
};

/** How long one edge is, mm. */
export const stepLength = ([from, e]: Step): number =>
  e.kind === 'line' ? distance(from, e.to) : distance(from, e.centre) * arcSweep(from, e);

/** The place so far along an edge, mm from its start. */
export const placeOn = ([from, e]: Step, along: number): Point => {
  if (e.kind === 'line') return add(from, scale(subtract(e.to, from), along / Math.max(distance(from, e.to), 1e-12)));
  const r = distance(from, e.centre);
  const a = Math.atan2(from.y - e.centre.y, from.x - e.centre.x);
  return add(e.centre, polar(r, a + ((e.ccw ? 1 : -1) * along) / r));
};

/**
 * Edges cut at some lengths along the whole, mm from its start and in order; the ends of each piece keep their curve.
 */
export const cutAt = (steps: readonly Step[], at: readonly number[]): readonly Step[] => {
  const out: Step[] = [];
  let begin = 0;
  for (const step of steps) {
    const long = stepLength(step);
    const own = at.filter((t) => t > begin + 1e-6 && t < begin + long - 1e-6).map((t) => t - begin);
    let from = step[0];
    for (const t of own) {
      const to = placeOn(step, t);
      out.push([from, { ...step[1], to }]);
      from = to;
    }
    out.push([from, step[1]]);
    begin += long;
  }
  return out;
};

/** A closed path that starts at the place so far along it, mm. */
export const startedAt = (path: Path, along: number): Path => {
  const steps = cutAt(edgesOf(path), [along]);
  let begin = 0;
  const k = steps.findIndex((s) => {
    const here = begin >= along - 1e-6;
    begin += stepLength(s);
    return here;
  });
  const [first, ...rest] = k <= 0 ? steps : [...steps.slice(k), ...steps.slice(0, k)];
  return first === undefined ? path : { start: first[0], closed: true, edges: [first, ...rest].map(([, e]) => e) };
};

/** The nearest place of an edge to a point: how far along it, and how far off, mm. */
const nearestOn = (step: Step, p: Point): { readonly along: number; readonly off: number } => {
  const [from, e] = step;
  const long = stepLength(step);
  let along: number;
  if (e.kind === 'line') {
    const u = scale(subtract(e.to, from), 1 / Math.max(long, 1e-12));
    along = Math.min(long, Math.max(0, (p.x - from.x) * u.x + (p.y - from.y) * u.y));
  } else {
    const r = distance(from, e.centre);
    const a = Math.atan2(from.y - e.centre.y, from.x - e.centre.x);
    const b = Math.atan2(p.y - e.centre.y, p.x - e.centre.x);
    const turn = (((e.ccw ? b - a : a - b) % (2 * Math.PI)) + 2 * Math.PI) % (2 * Math.PI);
    along = turn * r;
    if (along > long) along = distance(p, e.to) < distance(p, from) ? long : 0;
  }
  return { along, off: distance(p, placeOn(step, along)) };
};

/** The nearest place of a path to a point: how far along the whole, and how far off, mm. */
export const nearestAlong = (path: Path, p: Point): { readonly along: number; readonly off: number } => {
  let begin = 0;
  let best = { along: 0, off: Infinity };
  for (const step of edgesOf(path)) {
    const { along, off } = nearestOn(step, p);
    if (off < best.off) best = { along: begin + along, off };
    begin += stepLength(step);
  }
  return best;
};

/** Places along a path no farther apart than `step` mm, the ends of its edges among them, each with its edge. */
export const placesAlong = (path: Path, step: number): readonly { readonly at: Point; readonly of: Step }[] =>
  edgesOf(path).flatMap((of) => {
    const long = stepLength(of);
    const n = Math.max(1, Math.ceil(long / step));
    return long < 1e-9 ? [] : Array.from({ length: n + 1 }, (_, k) => ({ at: placeOn(of, (long * k) / n), of }));
  });
