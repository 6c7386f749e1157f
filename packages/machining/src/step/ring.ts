import { type Edge, type Path, type Point, distance, edgesOf, flatten, oncePer, signedArea } from '@fayplate/core';
import { type Spine, aboutSpine, moveSpine, signedToSpine, spineDistance } from '@fayplate/plate';

/**
 * One closed boundary of a horizontal section, counter-clockwise from +z: a capsule (all points within `radius` of a
 * spine: a circle, a slot, straight sides with round corners), or the plate's outline or what a notch takes of it,
 * which have no capsule. `key` is the same for rings that lie on each other.
 */
export interface Ring {
  readonly key: string;
  readonly name: string;
  readonly path: Path;
  readonly capsule: Capsule | null;
}

interface Capsule {
  readonly spine: Spine;
  readonly radius: number;
}

/** To 1e-7 mm, so that rings that lie on each other are the same to the last bit and share their edges. */
const snap = (v: number): number => Math.round(v * 1e7) / 1e7 + 0;

export const capsuleRing = (name: string, raw: Capsule): Ring => {
  const spine = moveSpine(raw.spine, ({ x, y }) => ({ x: snap(x), y: snap(y) }));
  const radius = snap(raw.radius);
  return {
    key: [...spine.flatMap(({ x, y }) => [x, y]), radius].join(' '),
    name,
    path: aboutSpine(spine, radius),
    capsule: { spine, radius },
  };
};

/** The plate's outline, counter-clockwise, each of its corners once. */
export const outlinePath = (path: Path): Path => closedRing(signedArea(path) < 0 ? reversed(path) : path);

/** An edge shorter than this is a rounding of its two ends, mm. */
const NOTHING = 1e-7;

/**
 * Each corner once: what ends where it began is left out, and the last edge ends on the very point where the first
 * begins.
 */
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

/**
 * Least clear distance between two rings of one section, mm: nearer they count as touching, and a solid has no sound
 * edge there.
 */
const CLEAR = 1e-4;

/** How ring a lies to ring b: inside it, around it, apart from it, on it, or crossing or touching it. */
export const lie = (a: Ring, b: Ring): Lie => {
  if (a.key === b.key) return 'same';
  // The outline and what a notch takes of it lie side by side.
  if (a.capsule === null && b.capsule === null) return 'apart';
  if (a.capsule === null || b.capsule === null) return lieToOutline(a, b);
  const p = a.capsule;
  const q = b.capsule;
  if (spineDistance(p.spine, q.spine) >= p.radius + q.radius + CLEAR) return 'apart';
  if (within(p, q)) return 'inside';
  return within(q, p) ? 'around' : 'crossing';
};

const within = (inner: Capsule, outer: Capsule): boolean =>
  Math.max(...inner.spine.map((p) => signedToSpine(p, outer.spine))) + inner.radius <= outer.radius - CLEAR;

/**
 * How far the chords of an outline's polygons stray, mm: the coarse one answers for most rings, the fine one, ten times
 * nearer than what counts as clear, for the rest.
 */
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
      (least, p, i) => Math.min(least, spineDistance(c.spine, [p, polygon[(i + 1) % polygon.length] ?? p])),
      Number.POSITIVE_INFINITY,
    );
  const coarse = coarsePolygon(outline.path);
  const about = clearOf(coarse) - c.radius - CLEAR;
  if (about < -CHORDS.coarse) return 'crossing';
  const polygon = about > CHORDS.coarse ? coarse : finePolygon(outline.path);
  if (polygon !== coarse && clearOf(polygon) < c.radius + CLEAR) return 'crossing';
  return holds(polygon, c.spine[0]) ? 'within' : 'apart';
};

const holds = (polygon: readonly Point[], p: Point): boolean =>
  polygon.reduce((inside, a, i) => {
    const b = polygon[(i + 1) % polygon.length] ?? a;
    const crosses = a.y > p.y !== b.y > p.y && p.x < a.x + ((p.y - a.y) * (b.x - a.x)) / (b.y - a.y);
    return crosses ? !inside : inside;
  }, false);
