import { type Point, dot, flatten, polar } from '@fayplate/core';
import type { Plate, PlateHole } from '@fayplate/plate';

/** A convex piece of the section, points in (u, z): u along the cutting line, z from side A (0) to side B (thickness). */
export type Piece = readonly Point[];

export interface Profile {
  /** Direction of the cutting line, radians from +x; it runs through the plate's origin. */
  readonly direction: number;
  /** Where the outline lies on the line. */
  readonly solids: readonly Piece[];
  readonly voids: readonly Piece[];
  /** Holes that the line cuts, by u; `axial` where through their very axis or near it. */
  readonly holes: readonly { readonly id: string; readonly u: number; readonly axial: boolean }[];
}

const rectangle = (u0: number, u1: number, z0: number, z1: number): Piece => [
  { x: u0, y: z0 },
  { x: u1, y: z0 },
  { x: u1, y: z1 },
  { x: u0, y: z1 },
];

/** Half the chord that a cylinder leaves on a line at distance d; 0 where the line misses it. */
const half = (radius: number, d: number): number => Math.sqrt(Math.max(0, radius * radius - d * d));

/** Where a cone frustum about the axis is met by a plane at distance d, as a trapezoid: exact for d = 0. */
const cone = (u: number, wide: number, narrow: number, zWide: number, zNarrow: number): Piece => [
  { x: u - wide, y: zWide },
  { x: u + wide, y: zWide },
  { x: u + narrow, y: zNarrow },
  { x: u - narrow, y: zNarrow },
];

const point118 = (59 * Math.PI) / 180;

const holeVoids = (h: PlateHole, u: number, d: number, t: number): readonly Piece[] => {
  const up = (z: number, side: 'A' | 'B'): number => (side === 'A' ? z : t - z);
  const w = half(h.diameter / 2, d);
  const out: Piece[] = [];
  if (w > 0) {
    const deep = h.depth ?? t;
    out.push(rectangle(u - w, u + w, ...([up(0, h.from), up(deep, h.from)].sort((a, b) => a - b) as [number, number])));
    if (h.depth !== null) out.push(cone(u, w, 0, up(deep, h.from), up(deep + w / Math.tan(point118), h.from)));
  }
  if (h.sink !== null) {
    const s = half(h.sink.diameter / 2, d);
    if (s > 0) {
      const [z0, z1] = [up(0, h.sink.side), up(h.sink.depth, h.sink.side)];
      out.push(h.sink.kind === 'countersunk' ? cone(u, s, w, z0, z1) : rectangle(u - s, u + s, Math.min(z0, z1), Math.max(z0, z1)));
    }
  }
  return out;
};

/** Where a line through the origin crosses the outline: from the first crossing to the last, pair by pair. */
const crossings = (plate: Plate, direction: number): readonly (readonly [number, number])[] => {
  const along = polar(1, direction);
  const across = polar(1, direction + Math.PI / 2);
  const points = flatten(plate.outline.path, 0.005);
  const hits = points.flatMap((p, i) => {
    const q = points[(i + 1) % points.length] ?? p;
    const [a, b] = [dot(p, across), dot(q, across)];
    if (a < 0 === b < 0) return [];
    const k = a / (a - b);
    return [dot(p, along) + k * (dot(q, along) - dot(p, along))];
  }).sort((a, b) => a - b);
  return hits.flatMap((u, i) => (i % 2 === 0 && hits[i + 1] !== undefined ? [[u, hits[i + 1] ?? u] as const] : []));
};

const profileAt = (plate: Plate, direction: number): Profile => {
  const along = polar(1, direction);
  const across = polar(1, direction + Math.PI / 2);
  const t = plate.thickness;
  const holes = plate.holes.map((h) => ({ h, u: dot(h, along), d: dot(h, across) }));
  const bores = plate.bores.map((b) => ({ b, u: dot(b, along), w: half(b.diameter / 2, dot(b, across)) })).filter((x) => x.w > 0);
  const raised = bores.filter(({ b }) => b.kind === 'spigot').map(({ b, u, w }) => (b.side === 'A' ? rectangle(u - w, u + w, -(b.depth ?? 0), 0) : rectangle(u - w, u + w, t, t + (b.depth ?? 0))));
  const cut = bores.filter(({ b }) => b.kind !== 'spigot').map(({ b, u, w }) => {
    // A through bore also passes the raised spigot of either side.
    const proud = (side: 'A' | 'B'): number => Math.max(0, ...plate.bores.filter((x) => x.kind === 'spigot' && x.side === side).map((x) => x.depth ?? 0));
    if (b.side === 'through') return rectangle(u - w, u + w, 0 - proud('A'), t + proud('B'));
    const deep = b.depth ?? t;
    return b.side === 'A' ? rectangle(u - w, u + w, 0, deep) : rectangle(u - w, u + w, t - deep, t);
  });
  return {
    direction,
    solids: [...crossings(plate, direction).map(([a, b]) => rectangle(a, b, 0, t)), ...raised],
    voids: [...cut, ...holes.flatMap(({ h, u, d }) => holeVoids(h, u, d, t))],
    holes: holes.filter(({ h, d }) => Math.abs(d) < h.diameter / 2).map(({ h, u, d }) => ({ id: h.id, u, axial: Math.abs(d) < h.diameter * 0.05 })),
  };
};

/** The section through the origin that shows most: the line that passes the axes of the most kinds of holes, then of the most holes. */
export const sectionProfile = (plate: Plate): Profile => {
  const headings = [Math.PI / 2, ...plate.holes.map((h) => Math.atan2(h.y, h.x))].map((a) => ((a % Math.PI) + Math.PI) % Math.PI);
  const kindOf = new Map(plate.holes.map((h) => [h.id, `${h.as} ${h.diameter.toFixed(3)} ${h.sink?.kind ?? ''}`]));
  const profiles = headings.map((a) => profileAt(plate, a));
  const score = (p: Profile): number => {
    const axial = p.holes.filter((h) => h.axial);
    return 100 * new Set(axial.map((h) => kindOf.get(h.id))).size + axial.length;
  };
  return profiles.reduce((best, p) => (score(p) > score(best) ? p : best));
};
