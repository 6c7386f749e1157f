import {
  type Edge,
  type Path,
  type Point,
  add,
  circlePath,
  cross,
  distance,
  dot,
  polar,
  scale,
  subtract,
} from '@fayplate/core';

/**
 * A point, as both ends in one place; a straight run; or the corners of a convex area, counter-clockwise, that it all
 * belongs to.
 */
export type Spine = readonly [Point, Point, ...Point[]];

/** The place on a straight run that lies nearest to a point. */
const nearestOnRun = (p: Point, a: Point, b: Point): Point => {
  const along = subtract(b, a);
  const length2 = dot(along, along);
  const t = length2 === 0 ? 0 : Math.min(1, Math.max(0, dot(subtract(p, a), along) / length2));
  return { x: a.x + t * along.x, y: a.y + t * along.y };
};

/** The straight runs that bound it: one of a straight run itself. */
export const runsOf = (spine: Spine): readonly (readonly [Point, Point])[] =>
  spine.length === 2 ? [[spine[0], spine[1]]] : spine.map((p, i) => [p, spine[(i + 1) % spine.length] ?? p] as const);

/** How far within an area a point lies, mm: 0 where the spine has no area, or the point is outside. */
const depthIn = (p: Point, spine: Spine): number => {
  if (spine.length === 2) return 0;
  let least = Infinity;
  for (const [a, b] of runsOf(spine)) {
    const along = subtract(b, a);
    least = Math.min(least, cross(along, subtract(p, a)) / Math.hypot(along.x, along.y));
  }
  return Math.max(0, least);
};

/** The place on a spine that lies nearest to a point: the point itself where it lies within the spine's area. */
export const nearestOnSpine = (p: Point, spine: Spine): Point => {
  if (spine.length === 2) return nearestOnRun(p, spine[0], spine[1]);
  if (depthIn(p, spine) > 0) return p;
  const spots = runsOf(spine).map(([a, b]) => nearestOnRun(p, a, b));
  return spots.reduce((best, q) => (distance(p, q) < distance(p, best) ? q : best));
};

export const distanceToSpine = (p: Point, spine: Spine): number => distance(p, nearestOnSpine(p, spine));

/** The same, but below zero by how far the point lies within the spine's area. */
export const signedToSpine = (p: Point, spine: Spine): number => {
  const depth = depthIn(p, spine);
  return depth > 0 ? -depth : distanceToSpine(p, spine);
};

/** Greatest distance between two of its points. */
export const spanOf = (spine: Spine): number =>
  spine.length === 2
    ? distance(spine[0], spine[1])
    : Math.max(...spine.flatMap((p, i) => spine.slice(i + 1).map((q) => distance(p, q))));

/** The same spine with each of its points moved. */
export const moveSpine = ([a, b, ...rest]: Spine, to: (p: Point) => Point): Spine => [to(a), to(b), ...rest.map(to)];

type Run = readonly [Point, Point];

const cross01 = ([a, b]: Run, [c, d]: Run): boolean => {
  const side = (p: Point, q: Point, r: Point): number => cross(subtract(q, p), subtract(r, p));
  return side(a, b, c) * side(a, b, d) < 0 && side(c, d, a) * side(c, d, b) < 0;
};

const runDistance = (a: Run, b: Run): number =>
  cross01(a, b)
    ? 0
    : Math.min(distanceToSpine(a[0], b), distanceToSpine(a[1], b), distanceToSpine(b[0], a), distanceToSpine(b[1], a));

/** Least distance between two spines; 0 where they share a point. */
export const spineDistance = (a: Spine, b: Spine): number => {
  if (a.length === 2 && b.length === 2) return runDistance([a[0], a[1]], [b[0], b[1]]);
  if (depthIn(a[0], b) > 0 || depthIn(b[0], a) > 0) return 0;
  return Math.min(...runsOf(a).flatMap((r) => runsOf(b).map((s) => runDistance(r, s))));
};

/** Where two spines come nearest, a place on each; where they cross, the crossing twice. */
export const nearestSpots = (a: Spine, b: Spine): readonly [Point, Point] => {
  if (a.length > 2 || b.length > 2) {
    if (depthIn(a[0], b) > 0) return [a[0], a[0]];
    if (depthIn(b[0], a) > 0) return [b[0], b[0]];
    const all = runsOf(a).flatMap((r) => runsOf(b).map((s) => nearestSpots([...r], [...s])));
    return all.reduce((best, p) => (distance(...p) < distance(...best) - 1e-12 ? p : best));
  }
  if (cross01([a[0], a[1]], [b[0], b[1]])) {
    const [u, v] = [subtract(a[1], a[0]), subtract(b[1], b[0])];
    const t = cross(subtract(b[0], a[0]), v) / cross(u, v);
    const at = { x: a[0].x + t * u.x, y: a[0].y + t * u.y };
    return [at, at];
  }
  const pairs: readonly (readonly [Point, Point])[] = [
    [a[0], nearestOnSpine(a[0], b)],
    [a[1], nearestOnSpine(a[1], b)],
    [nearestOnSpine(b[0], a), b[0]],
    [nearestOnSpine(b[1], a), b[1]],
  ];
  return pairs.reduce((best, p) => (distance(...p) < distance(...best) - 1e-12 ? p : best));
};

/** Area of a spine itself, mm²: 0 for a point or a straight run. */
export const spineArea = (spine: Spine): number =>
  spine.length === 2 ? 0 : runsOf(spine).reduce((sum, [a, b]) => sum + cross(a, b), 0) / 2;

/** Length once round a spine, mm: a straight run there and back. */
export const spineGirth = (spine: Spine): number =>
  spine.length === 2
    ? 2 * spanOf(spine)
    : runsOf(spine).reduce((sum, [a, b]) => sum + Math.hypot(b.x - a.x, b.y - a.y), 0);

/**
 * All within `radius` of a spine, as a closed path, counter-clockwise: a circle, a slot, or an area with rounded
 * corners.
 */
export const aboutSpine = (spine: Spine, radius: number): Path => {
  if (spanOf(spine) < 1e-9) return circlePath(spine[0], radius);
  const corners: readonly Point[] = spine;
  const sides = corners.map((a, i) => {
    const b = corners[(i + 1) % corners.length] ?? a;
    const along = subtract(b, a);
    const out = scale({ x: along.y, y: -along.x }, radius / Math.hypot(along.x, along.y));
    return { from: add(a, out), to: add(b, out), end: b };
  });
  const start = sides[0]?.from ?? spine[0];
  const edges = sides.flatMap(({ to, end }, i): readonly Edge[] => {
    const next = sides[(i + 1) % sides.length]?.from ?? start;
    return [{ kind: 'line', to }, ...(radius > 0 ? [{ kind: 'arc', to: next, centre: end, ccw: true } as const] : [])];
  });
  return { start, edges, closed: true };
};

/**
 * A rectangle's corners, counter-clockwise from its own lower left: `along` and `across` are from–to about `at`, mm,
 * turned by `angle`, radians.
 */
export const rectangleSpine = (
  at: Point,
  angle: number,
  along: readonly [number, number],
  across: readonly [number, number],
): Spine => {
  const put = (u: number, v: number): Point => add(at, add(polar(u, angle), polar(v, angle + Math.PI / 2)));
  const flat = (r: readonly [number, number]): boolean => r[1] - r[0] < 1e-9;
  if (flat(across)) return [put(along[0], across[0]), put(along[1], across[0])];
  if (flat(along)) return [put(along[0], across[0]), put(along[0], across[1])];
  return [put(along[0], across[0]), put(along[1], across[0]), put(along[1], across[1]), put(along[0], across[1])];
};

/** A slice of a round cut between two depths, radius changing evenly from `r0` at `z0` to `r1` at `z1` > `z0`; mm. */
export interface Slice {
  readonly z0: number;
  readonly z1: number;
  readonly r0: number;
  readonly r1: number;
}

/**
 * Metal that is taken away, as a solid: slices one above the other about one upright axis. A slot is the same swept
 * along its spine, a pocket with straight sides over the area of its own; a round cut's spine has both ends in one
 * place. Slices do not overlap.
 */
export interface Cut {
  readonly id: string;
  readonly what: 'hole' | 'bore' | 'recess' | 'relief';
  readonly spine: Spine;
  readonly slices: readonly Slice[];
  /** It runs out over the edge by design; left out: it does not. */
  readonly notch?: true;
  /** Turns with the second face. */
  readonly turns: boolean;
  /** Nominal diameter of its fastener, mm; null where it has none. */
  readonly nominal: number | null;
}

export const cutRadius = (cut: Cut): number => Math.max(...cut.slices.flatMap((s) => [s.r0, s.r1]));

/** Radius of the cut where it comes out on the level `z`; 0 where it does not. */
export const mouthRadius = (cut: Cut, z: number): number =>
  cut.slices.reduce(
    (r, s) => Math.max(r, Math.abs(s.z0 - z) < 1e-9 ? s.r0 : 0, Math.abs(s.z1 - z) < 1e-9 ? s.r1 : 0),
    0,
  );

/** Frustum, and over a slot's length or a pocket's area the prism beside it; mm³. */
export const cutVolume = ({ spine, slices }: Cut): number => {
  const area = spineArea(spine);
  const girth = spineGirth(spine);
  return slices.reduce((sum, { z0, z1, r0, r1 }) => {
    const h = z1 - z0;
    return sum + (Math.PI * h * (r0 * r0 + r0 * r1 + r1 * r1)) / 3 + (girth * (r0 + r1) * h) / 2 + area * h;
  }, 0);
};

/**
 * Whether from above the whole of one cut lies within another: two round ones about one axis lie within each other
 * where they are as wide.
 */
export const liesWithin = (inner: Cut, outer: Cut): boolean => {
  const room = cutRadius(outer) - cutRadius(inner);
  const least = room < 0 || outer.spine.length > 2 ? room + 1e-9 : Math.max(1e-6, room);
  return Math.max(...inner.spine.map((p) => signedToSpine(p, outer.spine))) <= least;
};
