import {
  type Edge,
  type Path,
  type Point,
  arcSweep,
  cross,
  distance,
  dot,
  edgesOf,
  oncePer,
  subtract,
} from '@fayplate/core';
import { distanceToSpine } from '../solids/cut.js';

type Arc = Edge & { readonly kind: 'arc' };

/** Whether the direction of p from the arc's centre lies within its sweep. */
const beside = (p: Point, from: Point, arc: Arc): boolean => {
  const turn = (q: Point): number => Math.atan2(q.y - arc.centre.y, q.x - arc.centre.x);
  const ahead = (arc.ccw ? turn(p) - turn(from) : turn(from) - turn(p)) % (2 * Math.PI);
  return (ahead < 0 ? ahead + 2 * Math.PI : ahead) <= arcSweep(from, arc);
};

/** Distance from an edge where that is less than `near`, else `near`. */
const nearer = (near: number, p: Point, from: Point, edge: Edge): number => {
  if (edge.kind === 'line') return Math.min(near, distanceToSpine(p, [from, edge.to]));
  const off = Math.abs(distance(p, edge.centre) - distance(from, edge.centre));
  // No point of an arc, its ends neither, is nearer than its whole circle.
  if (off >= near) return near;
  return Math.min(near, beside(p, from, edge) ? off : Math.min(distance(p, from), distance(p, edge.to)));
};

/**
 * Angle that the edge sweeps out as seen from p: less than half a turn but for an arc that bends round p, which sweeps
 * one way only.
 */
const swept = (p: Point, from: Point, edge: Edge): number => {
  const u = subtract(from, p);
  const v = subtract(edge.to, p);
  const chord = Math.atan2(cross(u, v), dot(u, v));
  if (edge.kind === 'line' || distance(p, edge.centre) >= distance(from, edge.centre)) return chord;
  const hand = edge.ccw ? 1 : -1;
  const ahead = distance(from, edge.to) < 1e-12 ? 2 * Math.PI : hand * chord;
  return hand * (ahead < 0 ? ahead + 2 * Math.PI : ahead);
};

/** One outline is asked about from thousands of places while the second face is turned. */
const edgesOnce = oncePer(edgesOf, new WeakMap<Path, ReturnType<typeof edgesOf>>());

/** Distance from the nearest edge of a closed path, mm: positive inside, negative outside. Exact for arcs. */
export const depthInside = (p: Point, path: Path): number => {
  let near = Infinity;
  let turns = 0;
  for (const [from, edge] of edgesOnce(path)) {
    near = nearer(near, p, from, edge);
    turns += swept(p, from, edge);
  }
  return Math.abs(turns) > Math.PI ? near : -near;
};
