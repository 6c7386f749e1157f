import { type Path, type Point, distance, flipX, identity, movePath, offsetPath, signedArea } from '@fayplate/core';
import { holePath } from '@fayplate/pictures';
import { type Plate, type PlateHole, type Side, borePath } from '@fayplate/plate';
import type { Opening, TestPiece } from '../types.js';
import { type Ring, isIn, pathOfRing, ringArea, ringOf, without } from './polygon.js';

/** A cut of the plate as the piece has it: right through. */
interface Cut {
  readonly id: string;
  readonly path: Path;
}

/** The size at which a hole of the piece fits: a thread's is its outside diameter, so that the bolt goes through. */
export const fitSize = (h: Pick<PlateHole, 'diameter' | 'thread'>): number => h.thread?.major ?? h.diameter;

const cutsOf = (plate: Plate, side: Side): readonly Cut[] => {
  const motion = side === 'B' ? identity : flipX;
  const holes = plate.holes.map((h) => ({ id: h.id, path: holePath({ ...h, diameter: fitSize(h) }) }));
  const bores = plate.bores
    .filter((b) => b.kind !== 'spigot' && (b.box?.notch !== true || b.depth !== null))
    .map((b) => ({ id: b.id, path: borePath(b) }));
  return [...holes, ...bores].map(({ id, path }) => ({ id, path: turnedLeft(movePath(motion, path)) }));
};

/** The same path run counter-clockwise. */
const turnedLeft = (path: Path): Path => {
  if (signedArea(path) >= 0) return path;
  const froms = [path.start, ...path.edges.map((e) => e.to)];
  const [last] = froms.slice(-1);
  return {
    start: last ?? path.start,
    closed: path.closed,
    edges: path.edges
      .map((e, i) => {
        const to = froms[i] ?? path.start;
        return e.kind === 'line' ? { kind: 'line' as const, to } : { ...e, to, ccw: !e.ccw };
      })
      .toReversed(),
  };
};

const near = (p: Point, q: Point): boolean => Math.abs(p.x - q.x) < 1e-3 && Math.abs(p.y - q.y) < 1e-3;

/** Whether a ring is another, come back from the joining as it went in. */
const alike = (ring: Ring, as: Ring): boolean =>
  Math.abs(Math.abs(ringArea(ring)) - Math.abs(ringArea(as))) < 1e-4 * length(as) &&
  ring.every((p) => as.some((q) => near(p, q)));

const length = (ring: Ring): number =>
  ring.reduce((sum, p, i) => sum + distance(p, ring[(i + 1) % ring.length] ?? p), 0);

/** Openings and outline of a piece, `grown` mm outward on the metal's side: the outline outward, each cut inward. */
type Flat = Pick<TestPiece, 'outlines' | 'openings'>;

/** What is cut is too narrow to be moved inward by so much. */
export interface TooNarrow {
  readonly tooNarrow: readonly string[];
}

/**
 * The plate in one plane, every cut right through, run into each other where they meet: what is cut alone keeps its
 * lines and arcs, what meets another is a fine polygon. `kerf`: half the width of the burn, mm; the outline is moved
 * outward by it and every cut inward, each by itself before they are joined, so that what the beam sweeps is the piece
 * as asked.
 */
export const flatPlate = (plate: Plate, side: Side, kerf = 0): Flat | TooNarrow => {
  const motion = side === 'B' ? identity : flipX;
  const tooNarrow: string[] = [];
  const moved = cutsOf(plate, side).flatMap((c): readonly Cut[] => {
    const path = kerf === 0 ? c.path : offsetPath(c.path, -kerf);
    if (path === null) tooNarrow.push(c.id);
    return path === null ? [] : [{ id: c.id, path }];
  });
  const whole = turnedLeft(movePath(motion, plate.outline.path));
  const outline = kerf === 0 ? whole : offsetPath(whole, kerf);
  if (outline === null) tooNarrow.push('the outline');
  if (outline === null || tooNarrow.length > 0) return { tooNarrow };
  const cuts = moved.map((c) => ({ ...c, ring: ringOf(c.path, FINE) }));
  const rim = ringOf(outline, FINE);
  const left = without(
    rim,
    cuts.map((c) => c.ring),
  );
  const outer = left.filter((r) => ringArea(r) > 0);
  const inner = left.filter((r) => ringArea(r) < 0);
  return {
    outlines: outer.map((r) => (alike(r, rim) ? outline : pathOfRing(r))),
    openings: inner.map((r): Opening => {
      const same = cuts.find((c) => alike(c.ring, r));
      const hole = r.toReversed();
      // Of holes that lie wholly in a larger one nothing is left to try.
      const of = cuts.filter(
        (c) => c === same || (same === undefined && c.ring.some((p) => isIn(p, hole) || r.some((q) => near(p, q)))),
      );
      return { of: (same === undefined ? of : [same]).map((c) => c.id), path: same?.path ?? pathOfRing(hole) };
    }),
  };
};

/** How far a joined outline may stray, mm: less than a beam or a nozzle can tell. */
const FINE = 0.002;
