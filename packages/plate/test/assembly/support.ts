import type { Point } from '@fayplate/core';
import type { GoesOnSpec, Joint } from '../../src/index.js';

/** A pin at its nominal place in a round hole of that radial clearance. */
export const fastener = (id: string, at: Point, clearance: number, made = 0): Joint => ({
  id,
  role: 'fastener',
  plate: at,
  part: at,
  clearance: [clearance, clearance],
  along: null,
  made,
});

/** A pin that locates: clearance 0 leaves no play. */
export const locator = (id: string, at: Point, clearance = 0): Joint => ({
  ...fastener(id, at, clearance),
  role: 'locator',
});

/** The same standard deviation in x and y for each joint, none shared, mm. */
export const loose = (joints: readonly Joint[], sigmas: readonly number[]): GoesOnSpec => ({
  joints,
  covariance: joints.flatMap((_, i) =>
    [0, 1].map((k) => joints.flatMap((__, j) => [0, 1].map((l) => (i === j && k === l ? (sigmas[i] ?? 0) ** 2 : 0)))),
  ),
});

/** Places on a circle, the first at 12 o'clock, clockwise. */
export const ring = (n: number, radius: number): readonly Point[] =>
  Array.from({ length: n }, (_, i) => ({
    x: radius * Math.sin((2 * Math.PI * i) / n),
    y: radius * Math.cos((2 * Math.PI * i) / n),
  }));

export const moved = (p: Point, dx: number, dy: number): Point => ({ x: p.x + dx, y: p.y + dy });
