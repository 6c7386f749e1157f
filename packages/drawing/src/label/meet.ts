import { type Box, type Circle, type Point, distance } from '@fayplate/core';

export interface Segment {
  readonly from: Point;
  readonly to: Point;
}

export const boxesMeet = (a: Box, b: Box): boolean => a.left < b.right && b.left < a.right && a.bottom < b.top && b.bottom < a.top;

const clamp = (v: number, from: number, to: number): number => Math.min(to, Math.max(from, v));

/** True where the box reaches into the disc. */
export const boxMeetsCircle = (box: Box, c: Circle): boolean =>
  distance(c.centre, { x: clamp(c.centre.x, box.left, box.right), y: clamp(c.centre.y, box.bottom, box.top) }) < c.radius;

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

export const segmentMeetsCircle = ({ from, to }: Segment, c: Circle): boolean => {
  const dx = to.x - from.x;
  const dy = to.y - from.y;
  const length2 = dx * dx + dy * dy;
  const t = length2 === 0 ? 0 : clamp(((c.centre.x - from.x) * dx + (c.centre.y - from.y) * dy) / length2, 0, 1);
  return distance(c.centre, { x: from.x + t * dx, y: from.y + t * dy }) < c.radius;
};

const side = (a: Point, b: Point, p: Point): number => Math.sign((b.x - a.x) * (p.y - a.y) - (b.y - a.y) * (p.x - a.x));

/** True where the two cross or touch; two that lie in one line are not counted. */
export const segmentsMeet = (a: Segment, b: Segment): boolean =>
  side(a.from, a.to, b.from) !== side(a.from, a.to, b.to) && side(b.from, b.to, a.from) !== side(b.from, b.to, a.to);
