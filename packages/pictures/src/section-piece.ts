import type { Point } from '@fayplate/core';

/** A convex piece of the section, points in (u, z): u along the cutting line, z from side A (0) to side B (thickness). */
export type Piece = readonly Point[];

export const rectangle = (u0: number, u1: number, z0: number, z1: number): Piece => [
  { x: u0, y: Math.min(z0, z1) },
  { x: u1, y: Math.min(z0, z1) },
  { x: u1, y: Math.max(z0, z1) },
  { x: u0, y: Math.max(z0, z1) },
];

/** Half the chord that a cylinder leaves on a line at distance d; 0 where the line misses it. */
export const half = (radius: number, d: number): number => Math.sqrt(Math.max(0, radius * radius - d * d));

export const spanOf = (piece: Piece): readonly [number, number] => [
  Math.min(...piece.map((p) => p.x)),
  Math.max(...piece.map((p) => p.x)),
];

/** What of a piece lies over some stretches of the line; nothing is drawn where there is no plate. */
export const clipped = (piece: Piece, stretches: readonly (readonly [number, number])[]): readonly Piece[] => {
  const [from, to] = spanOf(piece);
  return stretches.flatMap(([a, b]) =>
    to <= a || from >= b ? [] : [piece.map((p) => ({ x: Math.min(Math.max(p.x, a), b), y: p.y }))],
  );
};
