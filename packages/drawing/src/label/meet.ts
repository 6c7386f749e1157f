import { type Box, type Circle, type Point, distance } from '@fayplate/core';

/** A straight line from point to point, mm. */
export interface Segment {
  readonly from: Point;
  readonly to: Point;
}

export const boxesMeet = (a: Box, b: Box): boolean =>
  a.left < b.right && b.left < a.right && a.bottom < b.top && b.bottom < a.top;

const clamp = (v: number, from: number, to: number): number => Math.min(to, Math.max(from, v));

/** From the box to the rim of the disc; negative where the box reaches into it. */
export const boxToCircle = (box: Box, c: Circle): number =>
  distance(c.centre, { x: clamp(c.centre.x, box.left, box.right), y: clamp(c.centre.y, box.bottom, box.top) }) -
  c.radius;

/** True where the box reaches into the disc. */
export const boxMeetsCircle = (box: Box, c: Circle): boolean => boxToCircle(box, c) < 0;

export const boxHolds = (box: Box, p: Point): boolean =>
  p.x > box.left && p.x < box.right && p.y > box.bottom && p.y < box.top;

/** Clips the segment to the box side by side (Liang and Barsky 1984); true where some length of it is left. */
export const segmentMeetsBox = ({ from, to }: Segment, box: Box): boolean => {
  // Asked for hundreds of thousands of times: most segments lie wholly beyond one side.
  if (Math.max(from.x, to.x) <= box.left || Math.min(from.x, to.x) >= box.right) return false;
  if (Math.max(from.y, to.y) <= box.bottom || Math.min(from.y, to.y) >= box.top) return false;
  let enter = 0;
  let leave = 1;
  const sides = [
    [from.x - to.x, from.x - box.left],
    [to.x - from.x, box.right - from.x],
    [from.y - to.y, from.y - box.bottom],
    [to.y - from.y, box.top - from.y],
  ] as const;
  for (const [p, q] of sides) {
    if (p < 0) enter = Math.max(enter, q / p);
    else if (p > 0) leave = Math.min(leave, q / p);
  }
  return enter < leave;
};

const toSegment = (p: Point, { from, to }: Segment): number => {
  const dx = to.x - from.x;
  const dy = to.y - from.y;
  const length2 = dx * dx + dy * dy;
  const t = length2 === 0 ? 0 : clamp(((p.x - from.x) * dx + (p.y - from.y) * dy) / length2, 0, 1);
  return distance(p, { x: from.x + t * dx, y: from.y + t * dy });
};

export const segmentMeetsCircle = (s: Segment, c: Circle): boolean => toSegment(c.centre, s) < c.radius;

/** Sine of the angle at which two lines that are near each other cannot be told apart at a glance. */
const ALIKE = 0.17;

/** True where one runs beside the other, nearer than `near`, in almost the same direction. */
export const runsAlong = (a: Segment, b: Segment, near: number): boolean => {
  const [ux, uy] = [a.to.x - a.from.x, a.to.y - a.from.y];
  const [vx, vy] = [b.to.x - b.from.x, b.to.y - b.from.y];
  const across = ux * vy - uy * vx;
  // In squares: asked of every line near a leader, and most run another way.
  if (across * across > ALIKE * ALIKE * (ux * ux + uy * uy) * (vx * vx + vy * vy)) return false;
  return (
    toSegment(a.from, b) < near || toSegment(a.to, b) < near || toSegment(b.from, a) < near || toSegment(b.to, a) < near
  );
};

const side = (a: Point, b: Point, p: Point): number => Math.sign((b.x - a.x) * (p.y - a.y) - (b.y - a.y) * (p.x - a.x));

/** True where the two cross or touch; two that lie in one line are not counted. */
export const segmentsMeet = (a: Segment, b: Segment): boolean =>
  side(a.from, a.to, b.from) !== side(a.from, a.to, b.to) && side(b.from, b.to, a.from) !== side(b.from, b.to, a.to);
