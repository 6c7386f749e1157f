import { type Point, type Speech, boxOf, distance, pathBox, polar, say, sayAll, flatten } from '@fayplate/core';
import { type Lettering, type Picture, type Shape, type Stroke, group, pathShape, pens } from '@fayplate/drawing';
import { type Label, crossable, labelShapes, lineObstacle } from '../labels.js';
import { sheet } from '../sheet.js';
import { type ExplodedInput, type Loose, type Named, type Piece, looseOf, oddOne, piecesOf } from './pieces.js';
import { markSpot, planeWords } from './marks.js';
import { type Body, type Chain, type Spot, chainsOf } from './solid.js';
import { hiderOf, project, seenOf } from './visible.js';

/** Room on paper, mm, that a sheet of A4 or Letter leaves the drawing beside its words. */
const ROOM = { width: 172, height: 165 } as const;
/** Scales 1 : n in which a rule is still read by heart. */
const SCALES = [0.5, 1, 2, 3, 4, 5, 6, 8, 10, 15, 20, 25, 30, 40, 50, 100] as const;
/** Capitals, the names' and the marks', mm on paper. */
const LETTERS = { capital: 2.5, small: 2.1, gap: 2.5 } as const;
/** Of the shorter of two neighbours, how far it may lie before the other on paper. */
const OVERLAP = 0.3;
/** What floats on an axis is held so far from what it goes into, of the plate's extent. */
const LIFT = 0.05;
/** More names than this on one piece are left to the plate's own drawing; the odd one is always named. */
const MOST_NAMED = 16;

/** A place as the eye of side B sees it, first to last along the shaft on paper: what lies at one of these hides what lies before it. */
const alongShaft = (p: Point): number => (p.x - p.y) / 2;

interface Shifted {
  readonly piece: Piece;
  /** How far it is pulled out, mm along z. */
  readonly by: number;
}

const metalEnds = (body: Body): readonly [number, number] => {
  const own = body.filter((p) => !p.cut);
  return [Math.min(...own.map((p) => p.from)), Math.max(...own.map((p) => p.to))];
};

const moved = (body: Body, by: number): Body => body.map((p) => ({ ...p, from: p.from + by, to: p.to + by }));

/** Pieces pulled apart so far that each is seen, with room between them for what floats there. */
const spread = (pieces: readonly Piece[], loose: readonly Loose[], lift: number): readonly Shifted[] => {
  const out: Shifted[] = [];
  for (const piece of pieces) {
    const last = out.at(-1);
    if (last === undefined) {
      out.push({ piece, by: 0 });
      continue;
    }
    const span = (p: Piece): readonly [number, number] => {
      const along = flatten(p.outline, 0.5).map(alongShaft);
      return [Math.min(...along) + p.bottom, Math.max(...along) + p.top];
    };
    const [[low, high], [ownLow, ownHigh]] = [span(last.piece), span(piece)];
    const seen = high + last.by - OVERLAP * Math.min(high - low, ownHigh - ownLow) - ownLow;
    const side = last.piece.kind === 'plate' ? 'B' : piece.kind === 'plate' ? 'A' : null;
    const between = Math.max(0, ...loose.filter((l) => !l.behind && l.side === side).map((l) => l.height));
    const room = metalEnds(last.piece.body)[1] + last.by + (between === 0 ? 1 : 2) * lift + between;
    out.push({ piece, by: Math.max(seen, room - metalEnds(piece.body)[0]) });
  }
  return out;
};

/** What floats, in its place: beyond its part, or beside the plate. */
const hung = (
  loose: readonly Loose[],
  all: readonly Shifted[],
  lift: number,
): readonly { readonly of: Loose; readonly from: number }[] =>
  loose.flatMap((of) => {
    const kind = of.behind ? 'part' : 'plate';
    const base =
      (of.side === 'A' ? all.filter((s) => s.piece.kind === kind)[0] : all.findLast((s) => s.piece.kind === kind)) ??
      null;
    if (base === null) return [];
    const [low, high] = metalEnds(base.piece.body);
    return [{ of, from: base.by + (of.side === 'A' ? low - lift - of.height : high + lift) }];
  });

/** How far a piece reaches from a place in a direction. */
const reach = (piece: Piece, about: Point, direction: number): number => {
  const u = polar(1, direction);
  const rim = flatten(piece.outline, 0.2);
  let far = 0;
  for (const [i, a] of rim.entries()) {
    const b = rim[(i + 1) % rim.length] ?? a;
    const side = (p: Point): number => u.x * (p.y - about.y) - u.y * (p.x - about.x);
    const [s, t] = [side(a), side(b)];
    if (s > 0 === t > 0) continue;
    const k = s / (s - t);
    far = Math.max(far, u.x * (a.x + k * (b.x - a.x) - about.x) + u.y * (a.y + k * (b.y - a.y) - about.y));
  }
  return far;
};

/** The triangle at 12 o'clock and its number, lying in the face just off its rim. */
const clockChains = (piece: Piece, mark: number, letters: Lettering): readonly Chain[] =>
  piece.clocks.flatMap(({ of, at, about }) => {
    const far = reach(piece, about, at);
    const spot = (along: number, across: number): Spot => {
      const p = polar(far + along, at);
      const q = polar(across, at - Math.PI / 2);
      return { x: about.x + p.x + q.x, y: about.y + p.y + q.y, z: piece.top };
    };
    const tip = spot(0.25 * mark, 0);
    const words = piece.clocks.length > 1 ? `12 ${of}` : '12';
    return [
      [tip, spot(1.25 * mark, 0.5 * mark), spot(1.25 * mark, -0.5 * mark), tip],
      ...planeWords(words, spot(1.6 * mark, 0), { capital: mark, turn: at - Math.PI / 2, z: piece.top }, letters),
    ];
  });

const drawn = (runs: readonly (readonly Point[])[], k: number, stroke: Stroke): readonly Shape[] =>
  runs.map((run) => {
    const points = run.map((p) => ({ x: Math.round(1000 * k * p.x) / 1000, y: Math.round(1000 * k * p.y) / 1000 }));
    const [start = { x: 0, y: 0 }, ...rest] = points;
    return pathShape('note', { start, closed: false, edges: rest.map((to) => ({ kind: 'line', to })) }, stroke);
  });

/** Which of the places of a piece are named on it: all while they are few, else the odd one of its part alone. */
const namesOn = (piece: Piece, odd: ReadonlySet<string>): readonly Named[] =>
  piece.kind !== 'gasket' && piece.named.length <= MOST_NAMED
    ? piece.named
    : piece.named.filter((n) => odd.has(n.axis));

/**
 * Part, gasket, plate, gasket and part pulled apart along the shaft, as they go together, with what fastens them on its axis; isometric, to one
 * scale along all three axes, hidden edges left out.
 */
export const explodedPicture = (
  input: ExplodedInput,
  speech: Speech,
  letters: Lettering,
  room: { readonly width: number; readonly height: number } = ROOM,
): Picture => {
  const { plate } = input;
  const box = pathBox(plate.outline.path);
  const extent = Math.max(box.right - box.left, box.top - box.bottom);
  const tolerance = extent / 1500;
  const lift = LIFT * extent;
  const loose = looseOf(input, tolerance);
  const shifted = spread(piecesOf(input, tolerance), loose, lift);
  const floating = hung(loose, shifted, lift);
  const bodies: readonly Body[] = [
    ...shifted.map(({ piece, by }) => moved(piece.body, by)),
    ...floating.map(({ of, from }) => moved(of.body, from)),
  ];
  const edges = bodies.map(chainsOf);
  const on = boxOf(edges.flat(3).map(project));
  const margin = 12 * LETTERS.capital;
  const per =
    SCALES.find(
      (n) => (on.right - on.left) / n + margin <= room.width && (on.top - on.bottom) / n + margin <= room.height,
    ) ?? 200;
  const k = 1 / per;
  const mark = LETTERS.capital / k;

  // An axis runs from what it starts in to what it ends in, and a little past what floats on it.
  const axes = plate.holes.flatMap((h): readonly Chain[] => {
    const levels = [
      ...shifted.flatMap(({ piece, by }) =>
        piece.named.some((n) => n.axis === h.id) ? [by + piece.bottom, by + piece.top] : [],
      ),
      ...floating.flatMap(({ of, from }) => (of.axis === h.id ? [from - lift / 2, from + of.height + lift / 2] : [])),
    ];
    return h.part === null || levels.length === 0
      ? []
      : [[Math.min(...levels), Math.max(...levels)].map((z): Spot => ({ x: h.x, y: h.y, z }))];
  });
  const ends = (s: Shifted | undefined): readonly number[] =>
    s === undefined ? [] : [s.by + s.piece.bottom, s.by + s.piece.top];
  const shafts = input.mated.map((m): Chain => {
    const levels = [
      ...ends(shifted.find((s) => s.piece.kind === 'plate')),
      ...ends(shifted.find((s) => s.piece.name === m.face)),
    ];
    const out =
      m.side === 'A'
        ? [Math.min(...levels) - 2 * lift, Math.max(...levels)]
        : [Math.min(...levels), Math.max(...levels) + 2 * lift];
    return out.map((z): Spot => ({ ...(m.axis?.at ?? m.centre), z }));
  });
  const marks = shifted.flatMap(({ piece, by }, i): readonly Chain[] => {
    const side = piece.kind === 'plate' ? 'B' : i === 0 && piece.kind === 'part' ? 'A' : null;
    const spot =
      side === null
        ? null
        : markSpot(
            piece.body,
            piece.top,
            piece.outline,
            [6, 4.5, 3.5, 2.5].map((n) => n * mark * 0.8),
          );
    const all = [
      ...clockChains(piece, mark, letters),
      ...(side === null || spot === null
        ? []
        : planeWords(
            side,
            { x: spot.at.x, y: spot.at.y - spot.capital / 2 },
            { capital: spot.capital, turn: 0, z: piece.top },
            letters,
          )),
    ];
    return all.map((chain) => chain.map((p) => ({ ...p, z: p.z + by + 0.02 * tolerance })));
  });
  const flat = edges.flat(2);
  const seen = seenOf(bodies, flat, [...flat, ...axes, ...shafts, ...marks]);
  let from = 0;
  const take = (n: number): readonly (readonly Point[])[] => seen.slice(from, (from += n)).flat();
  const solid = bodies.map((_, i) => {
    const { piece } = shifted[i] ?? {};
    const [rim = [], ...rest] = (edges[i] ?? []).map((e) => take(e.length));
    return { name: piece?.name ?? floating[i - shifted.length]?.of.axis ?? '', rim, rest: rest.flat(), piece };
  });
  const axisRuns = take(axes.length);
  const shaftRuns = take(shafts.length);
  const markRuns = take(marks.length);

  const edge = { ...pens.wide, width: 0.35 };
  const shape = (b: (typeof solid)[number]): Shape =>
    group(b.name, [
      ...drawn(b.rim, k, b.piece === undefined ? pens.narrow : b.piece.broken ? pens.hidden : edge),
      ...drawn(b.rest, k, b.piece === undefined ? pens.narrow : edge),
    ]);
  const oddOf = (face: string): Named | null => {
    const m = input.mated.find((x) => x.face === face);
    const piece = shifted.find((s) => s.piece.name === face)?.piece;
    return m === undefined || piece === undefined ? null : oddOne(piece.named, m.centre);
  };
  const odd = input.mated.flatMap((m) => {
    const n = oddOf(m.face);
    return n === null ? [] : [{ face: m.face, id: n.id, axis: n.axis }];
  });
  const oddAxes = new Set(odd.map((o) => o.axis));
  const at = (p: Spot): Point => {
    const q = project(p);
    return { x: q.x * k, y: q.y * k };
  };
  const isHidden = hiderOf(bodies);
  /** Whether half of the mouth of a hole, or of what stands there, is seen. */
  const isSeen = (n: Named, z: number): boolean =>
    [0, 1, 2, 3, 4, 5, 6, 7].filter((i) => {
      const p = polar(0.51 * n.diameter, (i * Math.PI) / 4);
      return !isHidden({ x: n.x + p.x, y: n.y + p.y, z: z + 1e-3 });
    }).length > 3;
  const [first, second] = plate.faces;
  const lines = (piece: Piece): readonly string[] =>
    piece.kind === 'plate'
      ? ['plate', `side B: ${second}, A behind: ${first}`]
      : piece.kind === 'gasket'
        ? [piece.name]
        : [piece.name, piece.name === first ? 'its face, to side A' : 'from behind, to side B'];
  const labels: readonly Label[] = [
    ...solid.flatMap(({ piece, rim }, i): readonly Label[] => {
      if (piece === undefined) return [];
      const points = rim.flat();
      const top = points.reduce<Point | null>(
        (best, p) => (best === null || p.x / 2 + p.y > best.x / 2 + best.y ? p : best),
        null,
      );
      return top === null
        ? []
        : [{ id: `piece ${i}`, centre: { x: top.x * k, y: top.y * k }, radius: 0.2, lines: lines(piece) }];
    }),
    ...shifted.flatMap(({ piece, by }, i) =>
      namesOn(piece, oddAxes)
        .filter((n) => isSeen(n, piece.top + by))
        .map((n): Label => ({
          id: `${i} ${n.id}`,
          centre: at({ x: n.x, y: n.y, z: piece.top + by }),
          radius: 0.55 * n.diameter * k,
          lines: [n.id],
        })),
    ),
  ];
  /** What lettering keeps clear of needs no finer chords than this, mm on paper. */
  const coarse = (run: readonly Point[]): readonly Point[] =>
    run.reduce<Point[]>((kept, p, i) => {
      const last = kept.at(-1);
      if (last === undefined || i === run.length - 1 || k * distance(last, p) > 1.2) kept.push(p);
      return kept;
    }, []);
  const obstacles = [...solid.flatMap((b) => [...b.rim, ...b.rest]), ...markRuns].map(coarse).flatMap((run) =>
    run.slice(1).map((b, i) => {
      const a = run[i] ?? b;
      return lineObstacle({ x: a.x * k, y: a.y * k }, { x: b.x * k, y: b.y * k });
    }),
  );
  const thin = [...axisRuns, ...shaftRuns].map((run) =>
    lineObstacle(
      { x: (run[0]?.x ?? 0) * k, y: (run[0]?.y ?? 0) * k },
      { x: (run.at(-1)?.x ?? 0) * k, y: (run.at(-1)?.y ?? 0) * k },
    ),
  );
  const named = labelShapes(labels, { solid: crossable(obstacles), thin, leader: 12 }, LETTERS, letters);
  const unknown = shifted.flatMap((s) => s.piece.unknown);
  const notes = [
    `Isometric: lengths along its three axes are to scale, and along no other; how far the pieces are pulled apart is not. The letter B stands on side B of the plate, ${say(plate.thickness, speech, speech.unit === 'in' ? 3 : 2)} thick, toward ${second}; A on the face of ${first} that lies on side A. Seen so, letters read from left to right; a plate that is the wrong way round shows them mirrored, or not at all.`,
    `Each triangle is 12 o’clock of its piece.${odd.map((o) => ` ${o.id} of ${o.face} goes with ${o.axis}: turned over, it would lie on the other side.`).join('')}`,
    ...(unknown.length === 0 ? [] : [`Not measured, and drawn only to show the place: ${sayAll(unknown)}.`]),
  ];
  return sheet(
    'Pulled apart along the shaft',
    [
      ...solid.map(shape),
      group('axes', drawn(axisRuns, k, { ...pens.centre, width: 0.13 })),
      group('shafts', drawn(shaftRuns, k, pens.centre)),
      group('marks', drawn(markRuns, k, pens.hair)),
      ...named.shapes,
    ],
    notes,
    LETTERS,
    k,
    letters,
  );
};
