import type { Lettering } from '@fayplate/drawing';
import { letterRings } from '../flat/letters.js';
import { ringArea, ringOf } from '../flat/polygon.js';
import type { Mesh, TestPiece } from '../types.js';
import { triangulated } from './triangles.js';

/** A solid piece and the sizes that it was made to, mm, mm², mm³. */
export interface PieceSolid {
  readonly ok: true;
  readonly mesh: Mesh;
  readonly thickness: number;
  /** Of the outline less its openings. */
  readonly area: number;
  /** Names are cut so deep into the side that is seen, over this area. */
  readonly engraved: { readonly depth: number; readonly area: number };
}

/**
 * Names are cut this deep, mm, and never deeper than a third of the piece: two layers of a printer (common practice).
 */
const ENGRAVED = 0.6;

/** A level of the solid: its lower face, the floor of the letters, its upper face. */
type Level = 0 | 1 | 2;

/**
 * The piece as one closed body: outline and openings drawn up from 0 to `thickness`, the names cut into its upper face.
 * Every edge is used once each way; where two cuts meet in a single point that cannot be, and it is said. `plain`:
 * without the names.
 */
export const pieceSolid = (
  piece: TestPiece,
  thickness: number,
  letters: Lettering,
  plain = false,
): PieceSolid | { readonly ok: false; readonly fault: string } => {
  const metal = [...piece.outlines.map((p) => ringOf(p)), ...piece.openings.map((o) => ringOf(o.path).toReversed())];
  const names = plain ? [] : letterRings(piece.texts, letters);
  const depth = Math.min(ENGRAVED, thickness / 3);
  const plane = triangulated(metal, names);
  const heights = [0, thickness - depth, thickness] as const;
  const vertices: [number, number, number][] = [];
  const numbers = new Map<number, number>();
  const vertex = (point: number, level: Level): number => {
    const key = 3 * point + level;
    const known = numbers.get(key);
    if (known !== undefined) return known;
    const p = plane.points[point] ?? { x: 0, y: 0 };
    numbers.set(key, vertices.length);
    vertices.push([p.x, p.y, Number(heights[level].toFixed(6))]);
    return vertices.length - 1;
  };
  const triangles: [number, number, number][] = [];
  const face = (a: number, b: number, c: number): void => void triangles.push([a, b, c]);
  /** A wall along a side that has the metal on its left, seen from the right. */
  const wall = (a: number, b: number, low: Level, high: Level): void => {
    face(vertex(a, low), vertex(b, low), vertex(b, high));
    face(vertex(a, low), vertex(b, high), vertex(a, high));
  };
  for (const { corners, region, over } of plane.triangles) {
    if (region === 'outside') continue;
    const [a, b, c] = corners;
    const upper: Level = region === 'letter' ? 1 : 2;
    face(vertex(a, upper), vertex(b, upper), vertex(c, upper));
    face(vertex(a, 0), vertex(c, 0), vertex(b, 0));
    for (const [i, beyond] of over.entries()) {
      const [from, to] = [corners[i] ?? a, corners[(i + 1) % 3] ?? a];
      if (beyond === 'outside') wall(from, to, 0, upper);
      else if (region === 'metal' && beyond === 'letter') wall(from, to, 1, 2);
    }
  }
  // Lettering that touches itself in a point costs the names, not the piece.
  if (!isClosed(triangles) && names.length > 0) return pieceSolid(piece, thickness, letters, true);
  if (!isClosed(triangles))
    return {
      ok: false,
      fault:
        'two cuts of the piece meet in one point, where no solid can be: part them, or let them run into each other',
    };
  return {
    ok: true,
    mesh: { vertices, triangles },
    thickness,
    area: metal.reduce((sum, r) => sum + ringArea(r), 0),
    engraved: { depth: names.length === 0 ? 0 : depth, area: names.reduce((sum, r) => sum + ringArea(r), 0) },
  };
};

/** Whether every edge is used once each way. */
const isClosed = (triangles: readonly (readonly [number, number, number])[]): boolean => {
  const seen = new Set<string>();
  for (const [a, b, c] of triangles)
    for (const key of [`${a} ${b}`, `${b} ${c}`, `${c} ${a}`]) {
      if (seen.has(key)) return false;
      seen.add(key);
    }
  return [...seen].every((key) => seen.has(key.split(' ').toReversed().join(' ')));
};
