import {
  type Circle,
  type Motion,
  type Path,
  type Point,
  circlePath,
  distance,
  pathBox,
  polar,
  polygonPath,
} from '@fayplate/core';
import type { Face, Job } from '@fayplate/job';
import {
  type MatedFace,
  type Plate,
  type PlateHole,
  gasketHolePath,
  gasketUnder,
  gasketsOf,
  hullOfCircles,
  rimOutline,
} from '@fayplate/plate';
import { holePath } from '../plate.js';
import { type Body, type Prism, disc, ringOf } from './solid.js';

/**
 * What an exploded view is drawn from: the job, its plate, both faces in the plate's frame, and where each bench frame
 * lies.
 */
export interface ExplodedInput {
  readonly job: Job;
  readonly plate: Plate;
  readonly mated: readonly MatedFace[];
  readonly benches: ReadonlyMap<string, Motion>;
}

/** A place that is named on a piece: a fastener's hole or stud. */
export interface Named extends Point {
  /** Which axis it lies on: the hole of the plate. */
  readonly axis: string;
  readonly id: string;
  readonly diameter: number;
}

/** One piece along the shaft, in its own place before it is pulled out; mm. */
export interface Piece {
  readonly kind: 'part' | 'gasket' | 'plate';
  readonly name: string;
  readonly body: Body;
  /** The level that faces the eye, and the lowest of its metal. */
  readonly top: number;
  readonly bottom: number;
  readonly outline: Path;
  /** 12 o'clock of its own, radians, about a place; none for what has none. */
  readonly clocks: readonly { readonly of: string; readonly at: number; readonly about: Point }[];
  readonly named: readonly Named[];
  /** What of it is not measured, in words; drawn in broken lines where it is the rim. */
  readonly unknown: readonly string[];
  readonly broken: boolean;
}

/**
 * A nut, washer, head or pin that floats before or behind a piece, on its axis; levels are counted from its lower end,
 * mm.
 */
export interface Loose {
  readonly axis: string;
  readonly at: Point;
  readonly body: Body;
  readonly height: number;
  /** Between the plate and the part on this side; `behind`: beyond that part. */
  readonly side: 'A' | 'B';
  readonly behind: boolean;
}

/**
 * A flange of which no thickness is known is drawn so thick, of the part's width; a stud of which no length is known so
 * long, in diameters.
 */
const THIN = 0.06;
const STUD = 3;
/** Metal about the outermost fastener of a part without a rim, in its diameters. */
const ROUND = 1;
/** A raised spigot, recess or boss of no known height, mm. */
const STEP = 3;
/** A gasket of no known thickness, mm. */
const SHEET = 1;
/** A dowel stands so far out of either piece, in diameters (common practice). */
const DOWEL = 2;
/** A pattern whose mirror image lies nearer than this is its own, mm. */
const ODD = 0.5;
/** A cut runs so far past what it cuts through, mm. */
const PAST = 0.5;

const cut = (body: Omit<Prism, 'cut'>): Prism => ({ ...body, cut: true });
const metal = (body: Omit<Prism, 'cut'>): Prism => ({ ...body, cut: false });

interface Placed {
  readonly id: string;
  readonly at: Point;
  readonly diameter: number;
  readonly feature: Face['features'][number];
}

const placedOn = (face: Face, mated: MatedFace): readonly Placed[] =>
  face.features.flatMap((feature) => {
    const i = mated.pattern.ids.indexOf(feature.id);
    const at = mated.pattern.points[i];
    const radius = mated.pattern.radii[i] ?? (feature.diameter === null ? null : feature.diameter.value / 2);
    return at === undefined || radius === null || feature.kind === 'edge'
      ? []
      : [{ id: feature.id, at, diameter: 2 * radius, feature }];
  });

/** A part: its flange by its rim, or by what is fastened through it, with its holes, bores, studs and spigots. */
const partPiece = (input: ExplodedInput, mated: MatedFace, tolerance: number): Piece | null => {
  const face = input.job.faces.find((f) => f.name === mated.face);
  if (face === undefined) return null;
  const own = placedOn(face, mated);
  const rim = face.rim.length === 0 ? null : rimOutline(face, mated, input.benches.get(face.name) ?? null, 0);
  const known = rim !== null && rim.ok;
  const about = own.map((p): Circle => ({
    centre: p.at,
    radius: p.diameter * (0.5 + (p.feature.kind === 'bore' || p.feature.kind === 'spigot' ? 0.1 : ROUND)),
  }));
  const outline = known ? rim.path : about.length === 0 ? null : hullOfCircles(about);
  if (outline === null) return null;
  const box = pathBox(outline);
  const thick = face.flange ?? Math.max(box.right - box.left, box.top - box.bottom) * THIN;
  const [low, high] = mated.side === 'A' ? [-thick, 0] : [input.plate.thickness, input.plate.thickness + thick];
  // From the face into the part, and out of it.
  const inward = (deep: number): Pick<Prism, 'from' | 'to'> =>
    mated.side === 'A' ? { from: high - deep, to: high + PAST } : { from: low - PAST, to: low + deep };
  const outward = (long: number): Pick<Prism, 'from' | 'to'> =>
    mated.side === 'A' ? { from: high, to: high + long } : { from: low - long, to: low };
  const guessed: string[] = [];
  const features = own.flatMap(({ id, at, diameter, feature }): readonly Prism[] => {
    const ring = disc(at, diameter, tolerance);
    if (feature.kind === 'hole' || feature.kind === 'bore')
      return [cut({ ring, ...inward(Math.min(feature.deep ?? Infinity, thick + PAST)) })];
    const out = feature.stands ?? feature.height ?? feature.deep;
    if (out === null) guessed.push(id);
    return [
      metal({
        ring,
        ...outward(out ?? (feature.kind === 'stud' || feature.kind === 'dowel' ? STUD * diameter : STEP)),
      }),
    ];
  });
  const axisOf = (id: string): string | undefined =>
    input.plate.holes.find((h) => h.part?.face === face.name && h.part.feature === id)?.id;
  return {
    kind: 'part',
    name: face.name,
    body: [metal({ ring: ringOf(outline, tolerance), from: low, to: high }), ...features],
    bottom: low,
    top: high,
    outline,
    clocks: [{ of: face.name, at: Math.PI / 2 - (mated.side === 'A' ? 0 : input.plate.clocking), about: mated.centre }],
    named: own.flatMap((p) => {
      const axis = axisOf(p.id);
      return axis === undefined ? [] : [{ ...p.at, axis, id: p.id, diameter: p.diameter }];
    }),
    unknown: [
      ...(known ? [] : [`the rim of ${face.name}`]),
      ...(face.flange === null ? [`the thickness of ${face.name}`] : []),
      ...(guessed.length === 0
        ? []
        : [`how far ${guessed.join(', ')} of ${face.name} ${guessed.length === 1 ? 'stands' : 'stand'} out`]),
    ],
    broken: !known,
  };
};

const platePiece = ({ plate }: ExplodedInput, tolerance: number): Piece => {
  const t = plate.thickness;
  const from = (side: 'A' | 'B' | 'through', deep: number): Pick<Prism, 'from' | 'to'> =>
    side === 'through' || deep >= t
      ? { from: -1e3, to: 1e3 }
      : side === 'A'
        ? { from: -1e3, to: deep }
        : { from: t - deep, to: 1e3 };
  const bores = plate.bores.flatMap((b): readonly Prism[] => {
    const ring = disc(b, b.diameter, tolerance);
    if (b.kind !== 'spigot') return [cut({ ring, ...from(b.side, b.depth ?? Infinity) })];
    const high = b.depth ?? STEP;
    return [metal({ ring, ...(b.side === 'A' ? { from: -high, to: 0 } : { from: t, to: t + high }) })];
  });
  const holes = plate.holes.flatMap((h): readonly Prism[] => [
    cut({ ring: ringOf(holePath(h), tolerance), ...from(h.depth === null ? 'through' : h.from, h.depth ?? Infinity) }),
    ...(h.sink === null
      ? []
      : // A cone is shown by its mouth.
        [
          cut({
            ring: disc(h, h.sink.diameter, tolerance),
            ...from(h.sink.side, h.sink.kind === 'countersunk' ? 0.02 * t : h.sink.depth),
          }),
        ]),
  ]);
  const raised = Math.max(0, ...bores.filter((b) => !b.cut).map((b) => b.to - t));
  const turned = Math.abs(plate.clocking) > 1e-9;
  return {
    kind: 'plate',
    name: 'plate',
    body: within(
      [metal({ ring: ringOf(plate.outline.path, tolerance), from: 0, to: t }), ...bores, ...holes],
      Math.min(0, ...bores.filter((b) => !b.cut).map((b) => b.from)),
      t + raised,
    ),
    bottom: 0,
    top: t,
    outline: plate.outline.path,
    clocks: [
      { of: plate.faces[0], at: Math.PI / 2, about: { x: 0, y: 0 } },
      ...(turned ? [{ of: plate.faces[1], at: Math.PI / 2 - plate.clocking, about: { x: 0, y: 0 } }] : []),
    ],
    named: plate.holes
      .filter((h) => h.part !== null)
      .map((h) => ({ x: h.x, y: h.y, axis: h.id, id: h.id, diameter: h.diameter })),
    unknown: [],
    broken: false,
  };
};

/** No cut reaches farther than a little past the metal, where nothing else is. */
const within = (body: Body, low: number, high: number): Body =>
  body.map((p) => (p.cut ? { ...p, from: Math.max(p.from, low - PAST), to: Math.min(p.to, high + PAST) } : p));

const gasketPieces = (input: ExplodedInput, tolerance: number): readonly (Piece & { readonly face: string })[] => {
  const drawn = gasketsOf(input);
  if (!drawn.ok) return [];
  return drawn.gaskets.flatMap((g) => {
    const mated = input.mated.find((m) => m.face === g.face);
    if (mated === undefined) return [];
    const known = gasketUnder(input.job, g.face);
    const thick = known === null || known === 0 ? SHEET : known;
    const t = input.plate.thickness;
    const [low, high] = mated.side === 'A' ? [-thick, 0] : [t, t + thick];
    const holes = [
      ...g.holes.map((h) => ringOf(gasketHolePath(h), tolerance)),
      ...(g.bore === null ? [] : [disc(g.bore, g.bore.diameter, tolerance)]),
    ];
    return [
      {
        kind: 'gasket' as const,
        face: g.face,
        name: `gasket for ${g.face}`,
        body: [
          metal({ ring: ringOf(g.outline, tolerance), from: low, to: high }),
          ...holes.map((ring) => cut({ ring, from: low - PAST, to: high + PAST })),
        ],
        bottom: low,
        top: high,
        outline: g.outline,
        clocks: [
          { of: g.face, at: Math.PI / 2 - (mated.side === 'A' ? 0 : input.plate.clocking), about: mated.centre },
        ],
        named: g.holes.flatMap((h) =>
          h.feature === null ? [] : [{ x: h.x, y: h.y, axis: h.id, id: h.id, diameter: h.diameter }],
        ),
        unknown: known === null || known === 0 ? [`the thickness of the gasket for ${g.face}`] : [],
        broken: false,
      },
    ];
  });
};

/** The pieces from side A to side B: part, gasket, plate, gasket, part. `tolerance`: of chords to arcs, mm. */
export const piecesOf = (input: ExplodedInput, tolerance: number): readonly Piece[] => {
  const gaskets = gasketPieces(input, tolerance);
  const side = (s: 'A' | 'B'): readonly (Piece | null)[] => {
    const mated = input.mated.find((m) => m.side === s);
    if (mated === undefined) return [];
    return [partPiece(input, mated, tolerance), ...gaskets.filter((g) => g.face === mated.face)];
  };
  return [...side('A'), platePiece(input, tolerance), ...side('B').toReversed()].filter((p) => p !== null);
};

const hexagon = (at: Point, corners: number): Path =>
  polygonPath(
    Array.from({ length: 6 }, (_, i) => {
      const p = polar(corners / 2, (i * Math.PI) / 3);
      return { x: at.x + p.x, y: at.y + p.y };
    }),
  );

/** Nut or head on a shank of some length, its washer under it; `up`: the head lies above. */
const boltBody = (hole: PlateHole, long: number, up: boolean, tolerance: number): { body: Body; height: number } => {
  const { nominal = 0, head = null } = hole.fastening ?? {};
  const washer = head?.washer ?? null;
  const own = head !== null && head.kind !== 'nut';
  const high = own ? Math.max(0.5, head.height) : 0.65 * nominal;
  const path = own
    ? circlePath({ x: hole.x, y: hole.y }, (washer === null ? head.diameter : 1.5 * nominal) / 2)
    : hexagon(hole, 1.85 * nominal);
  const flat = washer?.thickness ?? 0;
  const all = long + high + flat;
  const at = (from: number, to: number): Pick<Prism, 'from' | 'to'> =>
    up ? { from, to } : { from: all - to, to: all - from };
  return {
    height: all,
    body: [
      metal({ ring: disc(hole, nominal, tolerance), ...at(0, long) }),
      ...(washer === null ? [] : [metal({ ring: disc(hole, washer.outside, tolerance), ...at(long, long + flat) })]),
      metal({ ring: ringOf(path, tolerance), ...at(long + flat, all) }),
    ],
  };
};

const nutBody = (hole: PlateHole, up: boolean, tolerance: number): { body: Body; height: number } => {
  const { nominal = 0, head = null } = hole.fastening ?? {};
  const washer = head?.washer ?? null;
  const flat = washer?.thickness ?? 0;
  const high = Math.max(0.5, (head?.height ?? 0.85 * nominal + flat) - flat);
  const all = flat + high;
  const at = (from: number, to: number): Pick<Prism, 'from' | 'to'> =>
    up ? { from, to } : { from: all - to, to: all - from };
  const corners = washer === null && head !== null ? head.diameter : 1.85 * nominal;
  return {
    height: all,
    body: [
      ...(washer === null ? [] : [metal({ ring: disc(hole, washer.outside, tolerance), ...at(0, flat) })]),
      metal({ ring: ringOf(hexagon(hole, corners), tolerance), ...at(flat, all) }),
      cut({ ring: disc(hole, nominal, tolerance), from: -PAST, to: all + PAST }),
    ],
  };
};

/** What is put on or through the holes, each on its axis; what stands in a part already is part of it. */
export const looseOf = (input: ExplodedInput, tolerance: number): readonly Loose[] =>
  input.plate.holes.flatMap((hole): readonly Loose[] => {
    const f = hole.fastening;
    const mated = input.mated.find((m) => m.face === hole.part?.face);
    if (f === null || (hole.part !== null && mated === undefined)) return [];
    const side = mated?.side ?? 'A';
    const other = side === 'A' ? 'B' : 'A';
    const base = { axis: hole.id, at: { x: hole.x, y: hole.y } };
    const bolt = input.plate.bolts.find((b) => b.holes.includes(hole.id));
    const long =
      bolt === undefined ? input.plate.thickness + f.nominal : (bolt.stock ?? Math.max(bolt.least, f.nominal));
    const nut = (on: 'A' | 'B', behind: boolean): Loose => ({
      ...base,
      // Farther from the plate is above on side B.
      ...nutBody(hole, on === 'B', tolerance),
      side: on,
      behind,
    });
    const pin = (length: number): Loose => ({
      ...base,
      body: [metal({ ring: disc(hole, f.nominal, tolerance), from: 0, to: length })],
      height: length,
      side,
      behind: false,
    });
    if (f.kind === 'stud') return f.head === null ? [] : [nut(f.head.side, f.head.side === side)];
    if (f.kind === 'dowel') {
      const stands = input.job.faces
        .find((x) => x.name === hole.part?.face)
        ?.features.some((x) => x.id === hole.part?.feature && x.kind === 'dowel');
      return stands === true ? [] : [pin(input.plate.thickness / 2 + DOWEL * f.nominal)];
    }
    if (f.kind === 'set stud') return [pin(long), nut(side, true)];
    if (f.kind === 'screw')
      return [
        {
          ...base,
          ...boltBody(hole, long, (f.head?.side ?? other) === 'B', tolerance),
          side: f.head?.side ?? other,
          behind: false,
        },
      ];
    const plain = { ...hole, fastening: { ...f, head: null } };
    return [
      { ...base, ...boltBody(plain, long, side === 'B', tolerance), side, behind: true },
      ...(f.head === null ? [] : [nut(f.head.side, false)]),
    ];
  });

/**
 * The place that tells most whether a piece is turned over about its upright axis: its mirror image lies farthest from
 * any other.
 */
export const oddOne = (named: readonly Named[], about: Point, of: ReadonlySet<string>): Named | null => {
  let [odd, most]: [Named | null, number] = [null, ODD];
  for (const n of named) {
    const turned = { x: 2 * about.x - n.x, y: n.y };
    const off = Math.min(...named.map((m) => distance(m, turned)));
    if (off > most && of.has(n.axis)) [odd, most] = [n, off];
  }
  return odd;
};
