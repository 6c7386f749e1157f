import { type Path, type Point, add, cross, distance, dot, edgesOf, scale, subtract } from '@fayplate/core';
import { type Step, nearestAlong, placeOn, placesAlong, stepLength } from './along.js';

/** Where an outline is too narrow for a cutter. */
export interface Hollow {
  readonly at: Point;
  /**
   * Radius of an arc that is tighter than the cutter, mm; 0: a sharp inner corner; null: the cutter does not go in
   * between two edges.
   */
  readonly radius: number | null;
}

/** A corner that the cutter rounds by less than this is smooth, mm. */
const SMOOTH = 5e-5;
/** The noise of the sums, mm. */
const NOISE = 1e-6;
/** Places of the outline that are tried lie so near each other, mm. */
const STEP = 0.2;

/** Direction of travel at a place of an edge. */
export const headingAt = ([from, edge]: Step, at: Point): Point => {
  const d = edge.kind === 'line' ? subtract(edge.to, from) : subtract(at, edge.centre);
  const u = scale(d, 1 / Math.max(Math.hypot(d.x, d.y), 1e-12));
  if (edge.kind === 'line') return u;
  return edge.ccw ? { x: -u.y, y: u.x } : { x: u.y, y: -u.x };
};

/**
 * The first place of a counter-clockwise outline that a cutter of this radius cannot reach from outside; null where it
 * reaches all.
 */
export const hollowFor = (outline: Path, radius: number): Hollow | null => {
  const steps = edgesOf(outline).filter((s) => stepLength(s) > 1e-9);
  for (const [i, step] of steps.entries()) {
    const [from, edge] = step;
    if (edge.kind === 'arc' && !edge.ccw && distance(from, edge.centre) < radius - NOISE)
      return { at: placeOn(step, stepLength(step) / 2), radius: distance(from, edge.centre) };
    const next = steps[(i + 1) % steps.length];
    if (next === undefined) continue;
    const [out, into] = [headingAt(step, edge.to), headingAt(next, next[0])];
    const turn = Math.atan2(cross(out, into), dot(out, into));
    if (turn < 0 && radius * (1 / Math.cos(turn / 2) - 1) > SMOOTH) return { at: edge.to, radius: 0 };
  }
  for (const { at, of } of placesAlong(outline, STEP)) {
    const u = headingAt(of, at);
    // The cutter's centre that touches here; it must not touch deeper anywhere.
    const centre = add(at, { x: u.y * radius, y: -u.x * radius });
    if (nearestAlong(outline, centre).off < radius - NOISE) return { at, radius: null };
  }
  return null;
};
