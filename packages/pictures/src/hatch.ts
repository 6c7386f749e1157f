import type { Point } from '@fayplate/core';
import type { Piece } from './section-profile.js';

/** The stretch of the line p + s·v that lies in a convex piece; null where it misses. */
const within = (piece: Piece, p: Point, v: Point): readonly [number, number] | null => {
  const n = piece.length;
  const area = piece.reduce((s, a, i) => {
    const b = piece[(i + 1) % n] ?? a;
    return s + a.x * b.y - b.x * a.y;
  }, 0);
  const hand = area < 0 ? -1 : 1;
  let from = -Infinity;
  let to = Infinity;
  for (const [i, a] of piece.entries()) {
    const b = piece[(i + 1) % n] ?? a;
    const e = { x: b.x - a.x, y: b.y - a.y };
    const inside = hand * (e.x * (p.y - a.y) - e.y * (p.x - a.x));
    const slope = hand * (e.x * v.y - e.y * v.x);
    if (Math.abs(slope) < 1e-12) {
      if (inside < 0) return null;
      continue;
    }
    const s = -inside / slope;
    if (slope > 0) from = Math.max(from, s);
    else to = Math.min(to, s);
  }
  return from < to ? [from, to] : null;
};

const minus = (
  spans: readonly (readonly [number, number])[],
  cut: readonly [number, number],
): readonly (readonly [number, number])[] =>
  spans.flatMap(([a, b]) => {
    if (cut[1] <= a || cut[0] >= b) return [[a, b] as const];
    return [...(cut[0] > a ? [[a, cut[0]] as const] : []), ...(cut[1] < b ? [[cut[1], b] as const] : [])];
  });

/** Lines at 45°, `pitch` mm apart, over the solids and never over the voids. */
export const hatch = (
  solids: readonly Piece[],
  voids: readonly Piece[],
  pitch: number,
): readonly (readonly [Point, Point])[] => {
  const v = { x: Math.SQRT1_2, y: Math.SQRT1_2 };
  const all = solids.flat();
  const offsets = all.map((p) => p.y - p.x);
  const first = Math.floor(Math.min(...offsets) / (pitch * Math.SQRT2));
  const last = Math.ceil(Math.max(...offsets) / (pitch * Math.SQRT2));
  const out: (readonly [Point, Point])[] = [];
  for (let k = first; k <= last; k++) {
    const p = { x: 0, y: k * pitch * Math.SQRT2 };
    for (const solid of solids) {
      const span = within(solid, p, v);
      if (span === null) continue;
      const kept = voids.reduce(
        (spans, hole) => {
          const cut = within(hole, p, v);
          return cut === null ? spans : minus(spans, cut);
        },
        [span] as readonly (readonly [number, number])[],
      );
      for (const [a, b] of kept) {
        if (b - a < 0.05) continue;
        out.push([
          { x: p.x + a * v.x, y: p.y + a * v.y },
          { x: p.x + b * v.x, y: p.y + b * v.y },
        ]);
      }
    }
  }
  return out;
};
