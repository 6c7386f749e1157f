import { type Path, type Point, distance, dot, flatten, polar } from '@fayplate/core';
import { type CheckId, type Plate, type PlateBore, type PlateHole, borePath } from '@fayplate/plate';

/**
 * A convex piece of the section, points in (u, z): u along the cutting line, z from side A (0) to side B (thickness).
 */
export type Piece = readonly Point[];

const rectangle = (u0: number, u1: number, z0: number, z1: number): Piece => [
  { x: u0, y: Math.min(z0, z1) },
  { x: u1, y: Math.min(z0, z1) },
  { x: u1, y: Math.max(z0, z1) },
  { x: u0, y: Math.max(z0, z1) },
];

/** Half the chord that a cylinder leaves on a line at distance d; 0 where the line misses it. */
const half = (radius: number, d: number): number => Math.sqrt(Math.max(0, radius * radius - d * d));

const spanOf = (piece: Piece): readonly [number, number] => [
  Math.min(...piece.map((p) => p.x)),
  Math.max(...piece.map((p) => p.x)),
];

/** What of a piece lies over some stretches of the line; nothing is drawn where there is no plate. */
const clipped = (piece: Piece, stretches: readonly (readonly [number, number])[]): readonly Piece[] => {
  const [from, to] = spanOf(piece);
  return stretches.flatMap(([a, b]) =>
    to <= a || from >= b ? [] : [piece.map((p) => ({ x: Math.min(Math.max(p.x, a), b), y: p.y }))],
  );
};

/** Where a cone frustum about the axis is met by a plane at distance d, as a trapezoid: exact for d = 0. */
const cone = (u: number, wide: number, narrow: number, zWide: number, zNarrow: number): Piece => [
  { x: u - wide, y: zWide },
  { x: u + wide, y: zWide },
  { x: u + narrow, y: zNarrow },
  { x: u - narrow, y: zNarrow },
];

const point118 = (59 * Math.PI) / 180;

/**
 * Height of what lies `deep` mm below the surface that one side's cutters meet; what would come through ends at the
 * other side.
 */
const heightIn = (h: PlateHole, deep: number, side: 'A' | 'B'): number => {
  const within = Math.min(deep, h.land[1] - h.land[0]);
  return side === 'A' ? h.land[0] + within : h.land[1] - within;
};

/** What a hole leaves empty on a line that passes its axis at distance d. */
const holeVoids = (h: PlateHole, u: number, d: number): readonly Piece[] => {
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

/**
 * The thread's two lines beside a hole that is cut through its axis (ISO 6410-1: narrow lines at the major diameter).
 */
const threadLines = (h: PlateHole, u: number): readonly (readonly [Piece[number], Piece[number]])[] => {
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

export interface Profile {
  /** Direction of the cutting line, radians from +x; it runs through the plate's origin. */
  readonly direction: number;
  /** Where the plate and its raised spigots lie on the line, in convex pieces. */
  readonly solids: readonly Piece[];
  /** The same, each stretch of plate with its spigots as one outline. */
  readonly outlines: readonly (readonly Point[])[];
  readonly voids: readonly Piece[];
  readonly threads: readonly (readonly [Point, Point])[];
  /** Bores that the line cuts through their axis: their edges, along u. Straight sides are none. */
  readonly bores: readonly { readonly id: string; readonly from: number; readonly to: number }[];
  /** Holes that the line cuts, by u; `axial` where through their very axis or near it. */
  readonly holes: readonly { readonly id: string; readonly u: number; readonly axial: boolean }[];
}

/** Where a line through the origin crosses an outline: from the first crossing to the last, pair by pair. */
const crossings = (path: Path, direction: number): readonly (readonly [number, number])[] => {
  const along = polar(1, direction);
  const across = polar(1, direction + Math.PI / 2);
  const points = flatten(path, 0.005);
  const hits = points
    .flatMap((p, i) => {
      const q = points[(i + 1) % points.length] ?? p;
      const [a, b] = [dot(p, across), dot(q, across)];
      if (a < 0 === b < 0) return [];
      const k = a / (a - b);
      return [dot(p, along) + k * (dot(q, along) - dot(p, along))];
    })
    .sort((a, b) => a - b);
  return hits.flatMap((u, i) => (i % 2 === 0 && hits[i + 1] !== undefined ? [[u, hits[i + 1] ?? u] as const] : []));
};

/**
 * The outline of a stretch of plate from u0 to u1 with what is raised on either side of it, anticlockwise from its
 * lower left corner.
 */
const outlineOf = (
  [u0, u1]: readonly [number, number],
  t: number,
  raised: readonly { readonly from: number; readonly to: number; readonly side: 'A' | 'B'; readonly height: number }[],
): readonly Point[] => {
  const steps = (side: 'A' | 'B', level: number, beyond: (height: number) => number): readonly Point[] =>
    raised
      .filter((r) => r.side === side && r.to > u0 && r.from < u1)
      .toSorted((a, b) => a.from - b.from)
      .flatMap((r) => [
        { x: r.from, y: level },
        { x: r.from, y: beyond(r.height) },
        { x: r.to, y: beyond(r.height) },
        { x: r.to, y: level },
      ]);
  return [
    { x: u0, y: 0 },
    ...steps('A', 0, (h) => -h),
    { x: u1, y: 0 },
    { x: u1, y: t },
    ...steps('B', t, (h) => t + h).toReversed(),
    { x: u0, y: t },
  ];
};

/**
 * What a line through the origin runs through of a bore: the middle and half its length there. Straight sides by their
 * own edge.
 */
const chordsOf = (b: PlateBore, direction: number): readonly { readonly u: number; readonly w: number }[] =>
  b.box === undefined
    ? [{ u: dot(b, polar(1, direction)), w: half(b.diameter / 2, dot(b, polar(1, direction + Math.PI / 2))) }]
    : crossings(borePath(b), direction).map(([from, to]) => ({ u: (from + to) / 2, w: (to - from) / 2 }));

/** How far a bore that goes through passes the spigots that it lies under, mm beyond the plate's own face. */
const proud = (plate: Plate, b: PlateBore, side: 'A' | 'B'): number =>
  Math.max(
    0,
    ...plate.bores
      .filter((x) => x.kind === 'spigot' && x.side === side && distance(x, b) < x.diameter / 2)
      .map((x) => x.depth ?? 0),
  );

const profileAt = (plate: Plate, direction: number): Profile => {
  const along = polar(1, direction);
  const across = polar(1, direction + Math.PI / 2);
  const t = plate.thickness;
  const holes = plate.holes.map((h) => ({ h, u: dot(h, along), d: Math.abs(dot(h, across)) }));
  const bores = plate.bores
    .flatMap((b) => chordsOf(b, direction).map((chord) => ({ b, ...chord })))
    .filter((x) => x.w > 0);
  const raised = bores
    .filter(({ b }) => b.kind === 'spigot')
    .map(({ b, u, w }) => ({
      from: u - w,
      to: u + w,
      side: b.side === 'A' ? ('A' as const) : ('B' as const),
      height: b.depth ?? 0,
    }));
  const cut = bores
    .filter(({ b }) => b.kind !== 'spigot')
    .map(({ b, u, w }) => {
      if (b.side === 'through') return rectangle(u - w, u + w, 0 - proud(plate, b, 'A'), t + proud(plate, b, 'B'));
      const deep = b.depth ?? t;
      return b.side === 'A' ? rectangle(u - w, u + w, 0, deep) : rectangle(u - w, u + w, t - deep, t);
    });
  const stretches = crossings(plate.outline.path, direction);
  const shown = holes.filter(
    ({ h, u, d }) => d < Math.max(h.diameter, h.sink?.diameter ?? 0) / 2 && stretches.some(([a, b]) => u > a && u < b),
  );
  const isAxial = (h: { readonly diameter: number }, d: number): boolean => d < h.diameter * 0.05;
  return {
    direction,
    solids: [
      ...stretches.map(([a, b]) => rectangle(a, b, 0, t)),
      ...raised.map((r) =>
        r.side === 'A' ? rectangle(r.from, r.to, -r.height, 0) : rectangle(r.from, r.to, t, t + r.height),
      ),
    ],
    outlines: stretches.map((s) => outlineOf(s, t, raised)),
    voids: [...cut, ...holes.flatMap(({ h, u, d }) => holeVoids(h, u, d))].flatMap((v) => clipped(v, stretches)),
    threads: shown.flatMap(({ h, u, d }) => (isAxial(h, d) ? threadLines(h, u) : [])),
    bores: bores
      .filter(({ b, w }) => b.box === undefined && w > 0.499 * b.diameter)
      .map(({ b, u, w }) => ({ id: b.id, from: u - w, to: u + w })),
    holes: shown.map(({ h, u, d }) => ({ id: h.id, u, axial: isAxial(h, d) })),
  };
};

/** Whether a check is about how deep things go, which only a section shows. */
const isDeep = (id: CheckId): boolean =>
  id === 'floor-between-cuts' ||
  id === 'counterbore-floor' ||
  id === 'countersink-floor' ||
  id === 'drill-point-floor' ||
  id === 'recess-floor';

/**
 * The section through the origin, its right to the right as seen from side B, that shows most: floors that do not hold,
 * then the axes of the most kinds of holes, then of the most holes.
 */
export const sectionProfile = (plate: Plate): Profile => {
  const headings = [Math.PI / 2, ...plate.holes.map((h) => Math.atan2(h.y, h.x))]
    .map((a) => ((a % Math.PI) + Math.PI) % Math.PI)
    .map((a) => (a > Math.PI / 2 + 1e-9 ? a - Math.PI : a));
  const kindOf = new Map(plate.holes.map((h) => [h.id, `${h.as} ${h.diameter.toFixed(3)} ${h.sink?.kind ?? ''}`]));
  const thin = new Set(plate.checks.filter((c) => !c.ok && isDeep(c.id)).flatMap((c) => c.of));
  const profiles = headings.map((a) => profileAt(plate, a));
  const score = (p: Profile): number => {
    const axial = p.holes.filter((h) => h.axial);
    return (
      1000 * axial.filter((h) => thin.has(h.id)).length +
      100 * new Set(axial.map((h) => kindOf.get(h.id))).size +
      axial.length
    );
  };
  return profiles.reduce((best, p) => (score(p) > score(best) ? p : best));
};
