import type { Motion } from './motion.js';
import { apply } from './motion.js';
import { type Point, cross, distance, subtract } from './point.js';

/**
 * One edge of an outline, from the end of the edge before it: a line, or an arc about `centre`
 * (counter-clockwise where `ccw`; an arc that ends where it starts is a full circle).
 */
export type Edge =
  | { readonly kind: 'line'; readonly to: Point }
  | { readonly kind: 'arc'; readonly to: Point; readonly centre: Point; readonly ccw: boolean };

/** A closed or open run of lines and arcs, mm. Closed paths end at `start`. */
export interface Path {
  readonly start: Point;
  readonly edges: readonly Edge[];
  readonly closed: boolean;
}

/** A full circle as a closed path of two arcs, counter-clockwise. */
export const circlePath = (centre: Point, radius: number): Path => {
  const start = { x: centre.x + radius, y: centre.y };
  const opposite = { x: centre.x - radius, y: centre.y };
  return {
    start,
    closed: true,
    edges: [
      { kind: 'arc', to: opposite, centre, ccw: true },
      { kind: 'arc', to: start, centre, ccw: true },
    ],
  };
};

/** A closed path of straight edges through the points, in their order. */
export const polygonPath = (points: readonly Point[]): Path => {
  const [start, ...rest] = points;
  if (start === undefined) throw new RangeError('polygonPath: no points');
  return { start, closed: true, edges: [...rest, start].map((to) => ({ kind: 'line', to })) };
};

/** Sweep of an arc from `from`, radians, always positive, in its own direction; 2π where it ends where it starts. */
export const arcSweep = (from: Point, edge: Edge & { kind: 'arc' }): number => {
  const a = Math.atan2(from.y - edge.centre.y, from.x - edge.centre.x);
  const b = Math.atan2(edge.to.y - edge.centre.y, edge.to.x - edge.centre.x);
  const turn = (edge.ccw ? b - a : a - b) % (2 * Math.PI);
  const positive = turn < 0 ? turn + 2 * Math.PI : turn;
  return positive < 1e-12 ? 2 * Math.PI : positive;
};

/** Each edge with the point it starts from. */
export const edgesOf = (path: Path): readonly (readonly [Point, Edge])[] => {
  let from = path.start;
  return path.edges.map((edge) => {
    const pair = [from, edge] as const;
    from = edge.to;
    return pair;
  });
};

/** Enclosed area, mm², positive for a counter-clockwise path. Exact for arcs (circular segments). */
export const signedArea = (path: Path): number =>
  edgesOf(path).reduce((sum, [from, edge]) => {
    const chord = cross(subtract(from, path.start), subtract(edge.to, path.start)) / 2;
    if (edge.kind === 'line') return sum + chord;
    const sweep = arcSweep(from, edge);
    const r = distance(from, edge.centre);
    const segment = (r * r * (sweep - Math.sin(sweep))) / 2;
    return sum + chord + (edge.ccw ? segment : -segment);
  }, 0);

/** Length along the edges, arcs included, in the unit of the points. */
export const pathLength = (path: Path): number =>
  edgesOf(path).reduce(
    (sum, [from, edge]) =>
      sum + (edge.kind === 'line' ? distance(from, edge.to) : distance(from, edge.centre) * arcSweep(from, edge)),
    0,
  );

/** The path under a rigid motion; a mirroring turns its arcs the other way. */
export const movePath = (m: Motion, path: Path): Path => ({
  start: apply(m, path.start),
  closed: path.closed,
  edges: path.edges.map((e) =>
    e.kind === 'line'
      ? { kind: 'line', to: apply(m, e.to) }
      : { kind: 'arc', to: apply(m, e.to), centre: apply(m, e.centre), ccw: m.mirrored ? !e.ccw : e.ccw },
  ),
});

/**
 * Points along the path, arcs split so that no chord strays more than `tolerance` mm from them; the closing point is
 * not repeated.
 */
export const flatten = (path: Path, tolerance = 0.01): readonly Point[] => {
  const out: Point[] = [path.start];
  for (const [from, edge] of edgesOf(path)) {
    if (edge.kind === 'arc') {
      const r = distance(from, edge.centre);
      const sweep = arcSweep(from, edge);
      const most = r <= tolerance ? Math.PI / 2 : 2 * Math.acos(1 - tolerance / r);
      const n = Math.max(1, Math.ceil(sweep / most));
      const a = Math.atan2(from.y - edge.centre.y, from.x - edge.centre.x);
      for (let i = 1; i < n; i++) {
        const t = a + ((edge.ccw ? 1 : -1) * sweep * i) / n;
        out.push({ x: edge.centre.x + r * Math.cos(t), y: edge.centre.y + r * Math.sin(t) });
      }
    }
    out.push(edge.to);
  }
  const last = out.at(-1);
  if (path.closed && out.length > 1 && last !== undefined && distance(last, path.start) < 1e-9) out.pop();
  return out;
};

/** The least rectangle along x and y that holds something. */
export interface Box {
  readonly left: number;
  readonly bottom: number;
  readonly right: number;
  readonly top: number;
}

/** The box of a path, the bulge of its arcs included. */
export const boxOf = (points: readonly Point[]): Box => {
  let [left, right, bottom, top] = [Infinity, -Infinity, Infinity, -Infinity];
  for (const { x, y } of points) {
    left = Math.min(left, x);
    right = Math.max(right, x);
    bottom = Math.min(bottom, y);
    top = Math.max(top, y);
  }
  return { left, right, bottom, top };
};

/** Exact bounding box, extremes of arcs included. */
export const pathBox = (path: Path): Box => {
  const points: Point[] = [path.start];
  for (const [from, edge] of edgesOf(path)) {
    points.push(edge.to);
    if (edge.kind === 'line') continue;
    const r = distance(from, edge.centre);
    const sweep = arcSweep(from, edge);
    const a = Math.atan2(from.y - edge.centre.y, from.x - edge.centre.x);
    for (let k = 0; k < 4; k++) {
      const t = (k * Math.PI) / 2;
      const ahead = (((edge.ccw ? t - a : a - t) % (2 * Math.PI)) + 2 * Math.PI) % (2 * Math.PI);
      if (ahead <= sweep) points.push({ x: edge.centre.x + r * Math.cos(t), y: edge.centre.y + r * Math.sin(t) });
    }
  }
  return boxOf(points);
};

const digits = (v: number): string => {
  const rounded = Math.round(v * 1e6) / 1e6;
  return String(Object.is(rounded, -0) ? 0 : rounded);
};

/** SVG path data in the path's own frame (y up: the reader flips), to 1e-6 mm. */
export const svgPathData = (path: Path): string => {
  const xy = (p: Point): string => `${digits(p.x)} ${digits(p.y)}`;
  const parts = [`M ${xy(path.start)}`];
  for (const [from, edge] of edgesOf(path)) {
    if (edge.kind === 'line') {
      parts.push(`L ${xy(edge.to)}`);
      continue;
    }
    const r = distance(from, edge.centre);
    const sweep = arcSweep(from, edge);
    const far = { x: 2 * edge.centre.x - from.x, y: 2 * edge.centre.y - from.y };
    // SVG cannot draw a full circle as one arc; sweep flag 1 is counter-clockwise where y points up.
    const stops = sweep > 2 * Math.PI - 1e-9 ? [far, edge.to] : [edge.to];
    for (const stop of stops) {
      const large = stops.length === 1 && sweep > Math.PI ? 1 : 0;
      parts.push(`A ${digits(r)} ${digits(r)} 0 ${large} ${edge.ccw ? 1 : 0} ${xy(stop)}`);
    }
  }
  return path.closed ? `${parts.join(' ')} Z` : parts.join(' ');
};

/** Where a point lies to the line from a to b: to its left, to its right, or on it. */
const sideOf = (a: Point, b: Point, p: Point): number => Math.sign(cross(subtract(b, a), subtract(p, a)));

/**
 * The first two edges of a closed polygon that cross or touch though they are not neighbours, by the index of the point
 * that each starts from, the lower first; null where the polygon is simple. Two points in one place touch.
 */
export const crossingOf = (points: readonly Point[]): readonly [number, number] | null => {
  const n = points.length;
  const at = (i: number): Point => points[i % n] ?? { x: 0, y: 0 };
  for (let j = 1; j < n; j++) {
    for (let i = 0; i < j; i++) {
      const [a, b, c, d] = [at(i), at(i + 1), at(j), at(j + 1)];
      const neighbours = j === i + 1 || (i === 0 && j === n - 1);
      if (neighbours) {
        // Neighbours share a point; they cross only where one turns straight back on the other.
        const [shared, from, to] = j === i + 1 ? [b, a, d] : [a, b, c];
        const [u, v] = [subtract(from, shared), subtract(to, shared)];
        if (n > 2 && cross(u, v) === 0 && u.x * v.x + u.y * v.y > 0) return [i, j];
        continue;
      }
      if (
        sideOf(a, b, c) * sideOf(a, b, d) <= 0 &&
        sideOf(c, d, a) * sideOf(c, d, b) <= 0 &&
        Math.max(Math.min(a.x, b.x), Math.min(c.x, d.x)) <= Math.min(Math.max(a.x, b.x), Math.max(c.x, d.x)) &&
        Math.max(Math.min(a.y, b.y), Math.min(c.y, d.y)) <= Math.min(Math.max(a.y, b.y), Math.max(c.y, d.y))
      )
        return [i, j];
    }
  }
  return null;
};
