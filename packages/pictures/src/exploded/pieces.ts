import { type Circle, type Point, distance, pathBox } from '@fayplate/core';
import type { Face } from '@fayplate/job';
import { type MatedFace, gasketHolePath, gasketUnder, gasketsOf, hullOfCircles, rimOutline } from '@fayplate/plate';
import { holePath } from '../plate.js';
import { STUD } from './loose.js';
import { type ExplodedInput, type Named, PAST, type Piece, STEP, cut, metal } from './piece.js';
import { type Body, type Prism, disc, ringOf } from './solid.js';

/**
 * A flange of which no thickness is known is drawn so thick, of the part's width; a stud of which no length is known so
 * long, in diameters.
 */
const THIN = 0.06;
/** Metal about the outermost fastener of a part without a rim, in its diameters. */
const ROUND = 1;
/** A gasket of no known thickness, mm. */
const SHEET = 1;
/** A pattern whose mirror image lies nearer than this is its own, mm. */
const ODD = 0.5;

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
