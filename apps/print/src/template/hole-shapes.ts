import { type Path, type Point, add, polar } from '@fayplate/core';
import { type Shape, circle, crossHair, group, line, pathShape, pens } from '@fayplate/drawing';
import type { Side } from '@fayplate/plate';
import { type Affine, carry } from '../geometry/affine.js';
import type { PunchedHole } from './words.js';

/** Bare paper about the point to be punched, mm radius. */
const OPEN = 0.8;
/** How far cross-hair arms stand out of the outermost circle. */
const ARM = 3;
/** How far a ring stands off the outermost circle, mm. */
export const RING = 1.2;
/** Pilot about as wide as the web of a drill of some 10 mm: common practice. */
const PILOT = 3;

/**
 * Places to punch: the centre, or both end centres of a slot so long that one drill does not run into the other's hole
 * (common practice); template frame.
 */
export const punchPoints = (hole: PunchedHole, place: Affine): readonly Point[] =>
  hole.slot === null || hole.slot.length <= hole.diameter
    ? [carry(place, { x: hole.x, y: hole.y })]
    : slotEnds(hole, hole.slot, place);

const slotEnds = (
  hole: PunchedHole,
  slot: { readonly length: number; readonly angle: number },
  place: Affine,
): readonly [Point, Point] => {
  const centre = { x: hole.x, y: hole.y };
  const half = polar(slot.length / 2, slot.angle);
  return [carry(place, { x: centre.x - half.x, y: centre.y - half.y }), carry(place, add(centre, half))];
};

/** A hole that does not come through can only be drilled from its own side; one that is drilled already from none. */
const isPunchedFrom = (hole: PunchedHole, side: Side): boolean =>
  hole.done !== true && (hole.depth === null || hole.from === side);

/** Radius of the outermost circle drawn about a punch point. */
export const outermost = (hole: PunchedHole): number => Math.max(hole.diameter, hole.sink?.diameter ?? 0) / 2;

export const armReach = (hole: PunchedHole): number => outermost(hole) + ARM;

const slotPath = (a: Point, b: Point, radius: number): Path => {
  const across = polar(radius, Math.atan2(b.y - a.y, b.x - a.x) + Math.PI / 2);
  const minus = (p: Point): Point => ({ x: p.x - across.x, y: p.y - across.y });
  return {
    start: minus(a),
    closed: true,
    edges: [
      { kind: 'line', to: minus(b) },
      { kind: 'arc', centre: b, ccw: true, to: add(b, across) },
      { kind: 'line', to: add(a, across) },
      { kind: 'arc', centre: a, ccw: true, to: minus(a) },
    ],
  };
};

/** The edge of a slot; null of a round hole. */
export const slotEdge = (hole: PunchedHole, place: Affine): Path | null =>
  hole.slot === null ? null : slotPath(...slotEnds(hole, hole.slot, place), hole.diameter / 2);

/**
 * Pilot, final and sunk circles and open-centred cross-hairs: solid where the cut is made from this side, dashed where
 * it is not. A hole for which paper and punch are too coarse has a ring about it and no cross to punch, only ticks
 * outside.
 */
export const holeShapes = (hole: PunchedHole, side: Side, place: Affine, ringed = false): Shape => {
  const here = isPunchedFrom(hole, side);
  const points = punchPoints(hole, place);
  const pen = here ? pens.narrow : pens.hidden;
  const layer = here ? 'mark' : 'note';
  const ends = hole.slot === null ? null : slotEnds(hole, hole.slot, place);
  const finals =
    ends === null
      ? points.map((p) => circle(layer, p, hole.diameter / 2, pen))
      : [pathShape(layer, slotPath(...ends, hole.diameter / 2), pen)];
  const pilots =
    here && !ringed && hole.diameter > 2 * PILOT ? points.map((p) => circle(layer, p, PILOT / 2, pens.hair)) : [];
  const { sink } = hole;
  const sinks =
    sink === null
      ? []
      : points.map((p) => circle('note', p, sink.diameter / 2, sink.side === side ? pens.narrow : pens.hidden));
  const open = Math.min(OPEN, 0.35 * hole.diameter);
  const rings = ringed ? points.map((p) => circle('note', p, outermost(hole) + RING, pens.wide)) : [];
  // The four ticks at a ring start where its circles end: they show where the centre lies, with nothing there to punch.
  const crosses = ringed
    ? points.flatMap((p) => crossHair(layer, p, { open: outermost(hole), reach: armReach(hole) }, pens.narrow))
    : here
      ? points.flatMap((p) => crossHair(layer, p, { open, reach: armReach(hole) }, pens.narrow))
      : points.flatMap((p) => crossHair(layer, p, { open: hole.diameter / 2 + 0.5, reach: armReach(hole) }, pens.hair));
  const centreLine = ends === null ? [] : [line('note', ...ends, pens.hair)];
  return group(hole.id, [...finals, ...pilots, ...sinks, ...rings, ...crosses, ...(here ? [] : centreLine)]);
};
