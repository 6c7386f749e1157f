import { type Point, flatten, pathBox } from '@fayplate/core';
import type { ExplodedInput, Piece } from './piece.js';
import { type Loose, looseOf } from './loose.js';
import { piecesOf } from './pieces.js';
import type { Body, Chain, Spot } from './solid.js';

/** Of the shorter of two neighbours, how far it may lie before the other on paper. */
const OVERLAP = 0.3;
/** What floats on an axis is held so far from what it goes into, of the plate's extent. */
const LIFT = 0.05;

/**
 * A place as the eye of side B sees it, first to last along the shaft on paper: what lies at one of these hides what
 * lies before it.
 */
const alongShaft = (p: Point): number => (p.x - p.y) / 2;

/** A piece where it is drawn. */
export interface Shifted {
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

/** Everything in its place: the pieces in their order along the shaft, then what floats on an axis. */
export interface Scene {
  readonly pieces: readonly Shifted[];
  readonly floating: readonly { readonly of: Loose; readonly from: number }[];
  /** The bodies of both, in that order. */
  readonly bodies: readonly Body[];
  /** How far apart small things are held, mm. */
  readonly lift: number;
  /** Of chords to arcs, mm. */
  readonly tolerance: number;
}

/** Chords stray no more than this, of the plate's extent: 0.02 mm where it is drawn 30 mm wide. */
const CHORDS = 1 / 1500;

/** Parts, gaskets and plate pulled apart, with what fastens them. */
export const sceneOf = (input: ExplodedInput): Scene => {
  const box = pathBox(input.plate.outline.path);
  const extent = Math.max(box.right - box.left, box.top - box.bottom);
  const tolerance = extent * CHORDS;
  const lift = LIFT * extent;
  const loose = looseOf(input, tolerance);
  const pieces = spread(piecesOf(input, tolerance), loose, lift);
  const floating = hung(loose, pieces, lift);
  const bodies = [
    ...pieces.map(({ piece, by }) => moved(piece.body, by)),
    ...floating.map(({ of, from }) => moved(of.body, from)),
  ];
  return { pieces, floating, bodies, lift, tolerance };
};

/** The axis of each fastener, from what it starts in to what it ends in and a little past what floats on it. */
export const axesOf = (plate: ExplodedInput['plate'], { pieces, floating, lift }: Scene): readonly Chain[] =>
  plate.holes.flatMap((h): readonly Chain[] => {
    const levels = [
      ...pieces.flatMap(({ piece, by }) =>
        piece.named.some((n) => n.axis === h.id) ? [by + piece.bottom, by + piece.top] : [],
      ),
      ...floating.flatMap(({ of, from }) => (of.axis === h.id ? [from - lift / 2, from + of.height + lift / 2] : [])),
    ];
    return h.part === null || levels.length === 0
      ? []
      : [[Math.min(...levels), Math.max(...levels)].map((z): Spot => ({ x: h.x, y: h.y, z }))];
  });

/** Each part's shaft, from the plate through the part and out of it. */
export const shaftsOf = (mated: ExplodedInput['mated'], { pieces, lift }: Scene): readonly Chain[] =>
  mated.map((m): Chain => {
    const levels = pieces.flatMap(({ piece, by }) =>
      piece.kind === 'plate' || piece.name === m.face ? [by + piece.bottom, by + piece.top] : [],
    );
    const [low, high] = [Math.min(...levels), Math.max(...levels)];
    const out = m.side === 'A' ? [low - 2 * lift, high] : [low, high + 2 * lift];
    return out.map((z): Spot => ({ ...(m.axis?.at ?? m.centre), z }));
  });
