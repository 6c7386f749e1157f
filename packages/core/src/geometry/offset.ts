import { type Edge, type Path, edgesOf } from './path.js';
import { type Point, add, cross, distance, dot, norm, scale, subtract } from './point.js';

/** The whole line or circle that an edge is part of; a line by a point and its unit direction. */
export type Curve =
  | { readonly kind: 'line'; readonly at: Point; readonly along: Point }
  | { readonly kind: 'circle'; readonly centre: Point; readonly radius: number };

const unit = (v: Point): Point => scale(v, 1 / Math.max(norm(v), 1e-300));

const lineWithCircle = (
  l: Extract<Curve, { kind: 'line' }>,
  c: Extract<Curve, { kind: 'circle' }>,
): readonly Point[] => {
  const foot = add(l.at, scale(l.along, dot(subtract(c.centre, l.at), l.along)));
  const h2 = c.radius ** 2 - distance(foot, c.centre) ** 2;
  if (h2 < -1e-9 * c.radius ** 2) return [];
  const h = Math.sqrt(Math.max(0, h2));
  return [add(foot, scale(l.along, h)), add(foot, scale(l.along, -h))];
};

/** Where two curves cross, none, one or two points; curves that touch meet in one place twice. */
export const crossings = (a: Curve, b: Curve): readonly Point[] => {
  if (a.kind === 'line' && b.kind === 'line') {
    const w = cross(a.along, b.along);
    return Math.abs(w) < 1e-12 ? [] : [add(a.at, scale(a.along, cross(subtract(b.at, a.at), b.along) / w))];
  }
  if (a.kind === 'line' && b.kind === 'circle') return lineWithCircle(a, b);
  if (a.kind === 'circle' && b.kind === 'line') return lineWithCircle(b, a);
  if (a.kind !== 'circle' || b.kind !== 'circle') return [];
  const d = distance(a.centre, b.centre);
  if (d < 1e-12) return [];
  // The line through both crossings (the radical line) is square to the centres' line.
  const along = scale(subtract(b.centre, a.centre), 1 / d);
  const t = (d * d + a.radius ** 2 - b.radius ** 2) / (2 * d);
  return lineWithCircle({ kind: 'line', at: add(a.centre, scale(along, t)), along: { x: -along.y, y: along.x } }, a);
};

const nearest = (points: readonly Point[], to: Point): Point | null =>
  points.reduce<Point | null>((best, p) => (best === null || distance(p, to) < distance(best, to) ? p : best), null);

/** Direction of travel at a point of an edge. */
const headingAt = (from: Point, edge: Edge, at: Point): Point => {
  if (edge.kind === 'line') return unit(subtract(edge.to, from));
  const r = unit(subtract(at, edge.centre));
  return edge.ccw ? { x: -r.y, y: r.x } : { x: r.y, y: -r.x };
};

interface Moved {
  readonly curve: Curve;
  readonly edge: Edge;
  readonly start: Point;
  readonly end: Point;
  /** Direction of travel of the edge as it was, at its start and its end. */
  readonly leaves: Point;
  readonly arrives: Point;
}

const toRight = (v: Point, by: number): Point => ({ x: v.y * by, y: -v.x * by });

const movedEdge = (from: Point, edge: Edge, by: number): Moved | null => {
  const leaves = headingAt(from, edge, from);
  const arrives = headingAt(from, edge, edge.to);
  const start = add(from, toRight(leaves, by));
  const end = add(edge.to, toRight(arrives, by));
  if (edge.kind === 'line')
    return { curve: { kind: 'line', at: start, along: leaves }, edge, start, end, leaves, arrives };
  const radius = distance(from, edge.centre) + (edge.ccw ? by : -by);
  if (radius < 1e-9) return null;
  return { curve: { kind: 'circle', centre: edge.centre, radius }, edge, start, end, leaves, arrives };
};

/**
 * A closed counter-clockwise path moved outward by `by` mm (inward where it is below zero), exactly: lines and arcs
 * stay lines and arcs, a corner that opens gets an arc about itself, one that closes is where the moved edges cross.
 * Null where an arc has less radius than it would lose, or where an edge would be eaten whole by its neighbours.
 */
export const offsetPath = (path: Path, by: number): Path | null => {
  if (by === 0) return path;
  const given = edgesOf(path);
  const moved = given.map(([from, edge]) => movedEdge(from, edge, by));
  const n = moved.length;
  const starts: Point[] = [];
  const ends: Point[] = [];
  const corners: (Edge | null)[] = [];
  for (const [i, one] of moved.entries()) {
    const next = moved[(i + 1) % n];
    const vertex = given[i]?.[1].to;
    if (one === null || next === null || next === undefined || vertex === undefined) return null;
    const turn = cross(one.arrives, next.leaves);
    let [end, start] = [one.end, next.start];
    corners[i] = null;
    if (Math.abs(turn) < 1e-9 && dot(one.arrives, next.leaves) > 0) start = end;
    else if (turn * by > 0) corners[i] = { kind: 'arc', to: start, centre: vertex, ccw: by > 0 };
    else {
      const meet = nearest(crossings(one.curve, next.curve), vertex);
      if (meet === null) return null;
      [end, start] = [meet, meet];
    }
    ends[i] = end;
    starts[(i + 1) % n] = start;
  }
  const edges: Edge[] = [];
  for (const [i, one] of moved.entries()) {
    const [from, to] = [starts[i], ends[i]];
    if (one === null || from === undefined || to === undefined) return null;
    // An edge that its neighbours have eaten runs backward.
    if (one.edge.kind === 'line') {
      if (dot(subtract(to, from), one.leaves) < -1e-9) return null;
      edges.push({ kind: 'line', to });
    } else edges.push({ ...one.edge, to });
    const corner = corners[i];
    if (corner != null) edges.push(corner);
  }
  const [start] = starts;
  return start === undefined ? null : { start, edges, closed: true };
};
