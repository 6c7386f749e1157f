import {
  type Edge,
  type Path,
  type Point,
  circlePath,
  distance,
  edgesOf,
  flatten,
  norm,
  oncePer,
  signedArea,
} from '@fayplate/core';

/**
 * One closed boundary of a horizontal section, counter-clockwise from +z: a capsule (all points within `radius` of the line a–b: a circle where
 * a = b, else a slot's stadium), or the plate's outline, which alone has no capsule. `key` is the same for rings that lie on each other.
 */
export interface Ring {
  readonly key: string;
  readonly name: string;
  readonly path: Path;
  readonly capsule: Capsule | null;
}

export interface Capsule {
  readonly a: Point;
  readonly b: Point;
  readonly radius: number;
}

/** To 1e-7 mm, so that rings that lie on each other are the same to the last bit and share their edges. */
const snap = (v: number): number => Math.round(v * 1e7) / 1e7 + 0;

export const capsuleRing = (name: string, raw: Capsule): Ring => {
  const capsule = {
    a: { x: snap(raw.a.x), y: snap(raw.a.y) },
    b: { x: snap(raw.b.x), y: snap(raw.b.y) },
    radius: snap(raw.radius),
  };
  const { a, b, radius } = capsule;
  return {
    key: [a.x, a.y, b.x, b.y, radius].join(' '),
    name,
    path: distance(a, b) === 0 ? circlePath(a, radius) : stadium(capsule),
    capsule,
  };
};

export const outlineRing = (path: Path): Ring => ({
  key: 'outline',
  name: 'outline',
  path: closedRing(signedArea(path) < 0 ? reversed(path) : path),
  capsule: null,
});

/** An edge shorter than this is a rounding of its two ends, mm. */
const NOTHING = 1e-7;

/** Each corner once: what ends where it began is left out, and the last edge ends on the very point where the first begins. */
const closedRing = (path: Path): Path => {
  const kept = edgesOf(path).filter(([from, e]) => distance(from, e.to) > NOTHING || sweeps(from, e));
  const starts = kept.map(([from]) => from);
  const [start = path.start] = starts;
  return {
    start,
    closed: true,
    edges: kept.map(([, e], i) => ({ ...e, to: starts[(i + 1) % starts.length] ?? start })),
  };
};

/** An arc that goes once round ends where it began and is no rounding. */
const sweeps = (from: Point, e: Edge): boolean => {
  if (e.kind === 'line') return false;
  const a = Math.atan2(from.y - e.centre.y, from.x - e.centre.x);
  const b = Math.atan2(e.to.y - e.centre.y, e.to.x - e.centre.x);
  const turn = ((e.ccw ? b - a : a - b) + 4 * Math.PI) % (2 * Math.PI);
  return turn > Math.PI || (e.to.x === from.x && e.to.y === from.y);
};

const stadium = ({ a, b, radius }: Capsule): Path => {
  const k = radius / distance(a, b);
  const n = { x: -(b.y - a.y) * k, y: (b.x - a.x) * k };
  const corner = (p: Point, side: 1 | -1): Point => ({ x: p.x + side * n.x, y: p.y + side * n.y });
  return {
    start: corner(a, -1),
    closed: true,
    edges: [
      { kind: 'line', to: corner(b, -1) },
      { kind: 'arc', to: corner(b, 1), centre: b, ccw: true },
      { kind: 'line', to: corner(a, 1) },
      { kind: 'arc', to: corner(a, -1), centre: a, ccw: true },
    ],
  };
};

const reversed = (path: Path): Path => ({
  start: path.start,
  closed: true,
  edges: edgesOf(path)
    .map(([from, e]) =>
      e.kind === 'line'
        ? ({ kind: 'line', to: from } as const)
        : ({ kind: 'arc', to: from, centre: e.centre, ccw: !e.ccw } as const),
    )
    .reverse(),
});

export type Lie = 'apart' | 'inside' | 'around' | 'same' | 'crossing';

/** Least clear distance between two rings of one section, mm: nearer they count as touching, and a solid has no sound edge there. */
const CLEAR = 1e-4;

/** How ring a lies to ring b: inside it, around it, apart from it, on it, or crossing or touching it. */
export const lie = (a: Ring, b: Ring): Lie => {
  if (a.key === b.key) return 'same';
  if (a.capsule === null || b.capsule === null) return lieToOutline(a, b);
  const p = a.capsule;
  const q = b.capsule;
  if (segmentsApart(p.a, p.b, q.a, q.b) >= p.radius + q.radius + CLEAR) return 'apart';
  if (within(p, q)) return 'inside';
  return within(q, p) ? 'around' : 'crossing';
};

const within = (inner: Capsule, outer: Capsule): boolean =>
  Math.max(toSegment(inner.a, outer.a, outer.b), toSegment(inner.b, outer.a, outer.b)) + inner.radius <=
  outer.radius - CLEAR;

/** How far the chords of an outline's polygons stray, mm: the coarse one answers for most rings, the fine one, ten times nearer than what counts as clear, for the rest. */
const CHORDS = { coarse: 0.05, fine: 1e-5 } as const;

/** Asked for with every other ring, so kept. */
const polygons = (stray: number) =>
  oncePer((path: Path) => flatten(path, stray), new WeakMap<Path, readonly Point[]>());
const coarsePolygon = polygons(CHORDS.coarse);
const finePolygon = polygons(CHORDS.fine);

const lies = new WeakMap<Path, Map<string, 'crossing' | 'apart' | 'within'>>();

/** Asked of the same two in every layer, so kept. */
const lieToOutline = (a: Ring, b: Ring): Lie => {
  const [outline, other] = a.capsule === null ? [a, b] : [b, a];
  const known = lies.get(outline.path) ?? new Map<string, 'crossing' | 'apart' | 'within'>();
  lies.set(outline.path, known);
  const how = known.get(other.key) ?? howInOutline(outline, other.capsule);
  known.set(other.key, how);
  return how === 'within' ? (outline === b ? 'inside' : 'around') : how;
};

const howInOutline = (outline: Ring, c: Capsule | null): 'crossing' | 'apart' | 'within' => {
  if (c === null) return 'crossing';
  const clearOf = (polygon: readonly Point[]): number =>
    polygon.reduce(
      (least, p, i) => Math.min(least, segmentsApart(c.a, c.b, p, polygon[(i + 1) % polygon.length] ?? p)),
      Number.POSITIVE_INFINITY,
    );
  const coarse = coarsePolygon(outline.path);
  const about = clearOf(coarse) - c.radius - CLEAR;
  if (about < -CHORDS.coarse) return 'crossing';
  const polygon = about > CHORDS.coarse ? coarse : finePolygon(outline.path);
  if (polygon !== coarse && clearOf(polygon) < c.radius + CLEAR) return 'crossing';
  return holds(polygon, c.a) ? 'within' : 'apart';
};

const holds = (polygon: readonly Point[], p: Point): boolean =>
  polygon.reduce((inside, a, i) => {
    const b = polygon[(i + 1) % polygon.length] ?? a;
    const crosses = a.y > p.y !== b.y > p.y && p.x < a.x + ((p.y - a.y) * (b.x - a.x)) / (b.y - a.y);
    return crosses ? !inside : inside;
  }, false);

const toSegment = (p: Point, a: Point, b: Point): number => {
  const dx = b.x - a.x;
  const dy = b.y - a.y;
  const l2 = dx * dx + dy * dy;
  const t = l2 === 0 ? 0 : Math.min(1, Math.max(0, ((p.x - a.x) * dx + (p.y - a.y) * dy) / l2));
  return norm({ x: p.x - a.x - t * dx, y: p.y - a.y - t * dy });
};

const side = (a: Point, b: Point, p: Point): number => (b.x - a.x) * (p.y - a.y) - (b.y - a.y) * (p.x - a.x);

const segmentsApart = (a: Point, b: Point, c: Point, d: Point): number =>
  side(a, b, c) * side(a, b, d) < 0 && side(c, d, a) * side(c, d, b) < 0
    ? 0
    : Math.min(toSegment(a, c, d), toSegment(b, c, d), toSegment(c, a, b), toSegment(d, a, b));
