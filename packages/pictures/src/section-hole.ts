import type { PlateHole } from '@fayplate/plate';
import { type Piece, half, rectangle } from './section-piece.js';

/** Where a cone frustum about the axis is met by a plane at distance d, as a trapezoid: exact for d = 0. */
const cone = (u: number, wide: number, narrow: number, zWide: number, zNarrow: number): Piece => [
  { x: u - wide, y: zWide },
  { x: u + wide, y: zWide },
  { x: u + narrow, y: zNarrow },
  { x: u - narrow, y: zNarrow },
];

const point118 = (59 * Math.PI) / 180;

/** Height of what lies `deep` mm below the surface that one side's cutters meet; what would come through ends at the other side. */
const heightIn = (h: PlateHole, deep: number, side: 'A' | 'B'): number => {
  const within = Math.min(deep, h.land[1] - h.land[0]);
  return side === 'A' ? h.land[0] + within : h.land[1] - within;
};

/** What a hole leaves empty on a line that passes its axis at distance d. */
export const holeVoids = (h: PlateHole, u: number, d: number): readonly Piece[] => {
  const w = half(h.diameter / 2, d);
  const out: Piece[] = [];
  if (w > 0) {
    const deep = h.depth ?? h.land[1] - h.land[0];
    out.push(rectangle(u - w, u + w, heightIn(h, 0, h.from), heightIn(h, deep, h.from)));
    if (h.depth !== null)
      out.push(cone(u, w, 0, heightIn(h, deep, h.from), heightIn(h, deep + w / Math.tan(point118), h.from)));
  }
  if (h.sink !== null) {
    const s = half(h.sink.diameter / 2, d);
    const [z0, z1] = [heightIn(h, 0, h.sink.side), heightIn(h, h.sink.depth, h.sink.side)];
    if (s > 0) out.push(h.sink.kind === 'countersunk' ? cone(u, s, w, z0, z1) : rectangle(u - s, u + s, z0, z1));
  }
  return out;
};

/** The thread's two lines beside a hole that is cut through its axis (ISO 6410-1: narrow lines at the major diameter). */
export const threadLines = (h: PlateHole, u: number): readonly (readonly [Piece[number], Piece[number]])[] => {
  if (h.thread === null) return [];
  const [z0, z1] = [heightIn(h, 0, h.from), heightIn(h, h.thread.depth ?? h.land[1] - h.land[0], h.from)];
  return [-1, 1].map((s) => {
    const x = u + (s * (h.thread?.major ?? 0)) / 2;
    return [
      { x, y: z0 },
      { x, y: z1 },
    ] as const;
  });
};
