/**
 * Parts in space, with nothing of the room under test: vectors of three, an eye that stands somewhere and looks
 * somewhere, and a turn about an axis. The first part's face is the plane z = 0 with its metal below; the plate fills
 * z from 0 to its thickness; the second part's face rests on the plate with its metal above.
 */
export type Vector = readonly [number, number, number];

export const cross3 = (a: Vector, b: Vector): Vector => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];
export const dot3 = (a: Vector, b: Vector): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
const plus = (a: Vector, b: Vector, k: number): Vector => [a[0] + k * b[0], a[1] + k * b[1], a[2] + k * b[2]];

export const up: Vector = [0, 1, 0];

/** What an eye sees that looks along `sight` with `up` overhead: x to its right hand, y up (right = sight × up). */
export const seen = (p: Vector, sight: Vector): { readonly x: number; readonly y: number } => ({
  x: dot3(p, cross3(sight, up)),
  y: dot3(p, up),
});

/** Rodrigues: the point turned by `angle` about `axis` (unit) through the origin, right-hand rule. */
export const turned = (p: Vector, axis: Vector, angle: number): Vector => {
  const along = plus([0, 0, 0], axis, dot3(p, axis) * (1 - Math.cos(angle)));
  const level = plus(along, p, Math.cos(angle));
  return plus(level, cross3(axis, p), Math.sin(angle));
};
