import {
  type Curve,
  type Edge,
  type Path,
  type Point,
  add,
  centroid,
  cross,
  crossings,
  crossingOf,
  distance,
  dot,
  fitCircle,
  fitLine,
  flatten,
  midpoint,
  polar,
  scale,
  heading,
  signedArea,
  subtract,
} from '@fayplate/core';

/**
 * A piece of an outline before its ends are known: a corner, a lobe about a centre, or what was touched along an arc or
 * a line.
 */
export type Piece = {
  /** Radius that leads on to the next piece, mm; left out: they meet in a corner. */
  readonly fillet?: number;
} & (
  | { readonly kind: 'corner'; readonly at: Point }
  | { readonly kind: 'lobe'; readonly centre: Point; readonly radius: number }
  | { readonly kind: 'arc' | 'line'; readonly points: readonly Point[] }
);

/** What a fitted stretch rests on: how many places, and how far the farthest of them lies off it, mm. */
interface Rest {
  readonly along: 'arc' | 'line';
  readonly points: number;
  readonly departure: number;
}

interface Stretch {
  /** Null for a corner. */
  readonly curve: Curve | null;
  readonly ccw: boolean;
  /** Where it is known to begin and to end, roughly. */
  readonly from: Point;
  readonly to: Point;
}

const onto = (curve: Curve, p: Point): Point => {
  if (curve.kind === 'line') return add(curve.at, scale(curve.along, dot(subtract(p, curve.at), curve.along)));
  return add(curve.centre, polar(curve.radius, heading(subtract(p, curve.centre))));
};

const stretchOf = (piece: Piece, before: Point, after: Point): Stretch | null => {
  if (piece.kind === 'corner') return { curve: null, ccw: true, from: piece.at, to: piece.at };
  if (piece.kind === 'lobe') {
    const curve = { kind: 'circle', centre: piece.centre, radius: piece.radius } as const;
    return { curve, ccw: true, from: onto(curve, before), to: onto(curve, after) };
  }
  const [first] = piece.points;
  const last = piece.points.at(-1);
  if (first === undefined || last === undefined) return null;
  if (piece.kind === 'line') {
    const curve = fitLine(piece.points);
    return { curve, ccw: true, from: onto(curve, first), to: onto(curve, last) };
  }
  const circle = fitCircle(piece.points);
  if (circle === null) return null;
  const middle = piece.points[Math.floor(piece.points.length / 2)] ?? first;
  const curve = { kind: 'circle', ...circle } as const;
  return {
    curve,
    ccw: cross(subtract(middle, first), subtract(last, middle)) > 0,
    from: onto(curve, first),
    to: onto(curve, last),
  };
};

/**
 * Where one stretch hands over to the next: where they cross, nearest to the gap between them; else each where it was
 * touched last.
 */
const handOver = (a: Stretch, b: Stretch): readonly [Point, Point] => {
  if (a.curve === null || b.curve === null) return [a.to, b.from];
  const hint = midpoint(a.to, b.from);
  const [meet] = [...crossings(a.curve, b.curve)].sort((p, q) => distance(p, hint) - distance(q, hint));
  return meet === undefined ? [a.to, b.from] : [meet, meet];
};

const middleOf = (piece: Piece): Point =>
  piece.kind === 'corner' ? piece.at : piece.kind === 'lobe' ? piece.centre : centroid(piece.points);

/** The other way round: what led on from a piece now leads on to it. */
const reversed = (pieces: readonly Piece[]): readonly Piece[] =>
  pieces.toReversed().map((p, i, all) => {
    const { fillet: _, ...bare } = 'points' in p ? { ...p, points: p.points.toReversed() } : p;
    const fillet = all[(i + 1) % all.length]?.fillet;
    return fillet === undefined ? bare : { ...bare, fillet };
  });

/** Direction of travel along a stretch at a place on it. */
const travelAt = ({ curve, ccw }: Stretch, at: Point): Point => {
  if (curve === null || curve.kind === 'line') return curve === null ? at : curve.along;
  const out = scale(subtract(at, curve.centre), 1 / curve.radius);
  return ccw ? { x: -out.y, y: out.x } : { x: out.y, y: -out.x };
};

/**
 * Where the centre of a circle of that radius may lie that touches the stretch on one side: 1 to the left of travel, −1
 * to the right.
 */
const beside = ({ curve, ccw }: Stretch, radius: number, side: 1 | -1): Curve | null => {
  if (curve === null) return null;
  if (curve.kind === 'line')
    return { ...curve, at: add(curve.at, scale({ x: -curve.along.y, y: curve.along.x }, side * radius)) };
  const r = curve.radius - (ccw ? side : -side) * radius;
  return r > 0 ? { ...curve, radius: r } : null;
};

/**
 * The arc that leads from one stretch to the next where they cross, and where it touches each; null where they do not
 * cross, or it has no room.
 */
const filletOf = (
  a: Stretch,
  b: Stretch,
  radius: number,
): { readonly from: Point; readonly to: Point; readonly centre: Point; readonly ccw: boolean } | null => {
  const [corner, begin] = handOver(a, b);
  if (a.curve === null || b.curve === null || distance(corner, begin) > 1e-9) return null;
  const turn = cross(travelAt(a, corner), travelAt(b, corner));
  if (Math.abs(turn) < 1e-9) return null;
  const side = turn > 0 ? 1 : -1;
  const [one, other] = [beside(a, radius, side), beside(b, radius, side)];
  if (one === null || other === null) return null;
  const [centre] = [...crossings(one, other)].sort((p, q) => distance(p, corner) - distance(q, corner));
  return centre === undefined
    ? null
    : { from: onto(a.curve, centre), to: onto(b.curve, centre), centre, ccw: side > 0 };
};

const restOf = (piece: Piece): readonly Rest[] => {
  if (piece.kind !== 'arc' && piece.kind !== 'line') return [];
  const curve: Curve | null =
    piece.kind === 'line'
      ? fitLine(piece.points)
      : ((c) => (c === null ? null : ({ kind: 'circle', ...c } as const)))(fitCircle(piece.points));
  if (curve === null) return [];
  const departure = Math.max(...piece.points.map((p) => distance(p, onto(curve, p))));
  return [{ along: piece.kind, points: piece.points.length, departure }];
};

export interface Outlined {
  readonly path: Path;
  readonly rests: readonly Rest[];
}

/**
 * The closed outline, counter-clockwise, of pieces in order round a part: stretches end where they cross their
 * neighbours, hollow waists included; what does not cross is joined by a straight edge. Null where the pieces make no
 * simple outline.
 */
export const outlineOfPieces = (given: readonly Piece[]): Outlined | null => {
  const around = given.flatMap((p) => ('points' in p ? p.points : [middleOf(p)]));
  const area = around.reduce((sum, p, i) => sum + cross(p, around[(i + 1) % around.length] ?? p), 0);
  const pieces = area < 0 ? reversed(given) : given;
  const n = pieces.length;
  if (n < 2 || area === 0) return null;
  const stretches = pieces.map((piece, i) => {
    const [before, after] = [pieces[(i + n - 1) % n], pieces[(i + 1) % n]];
    const last = before !== undefined && 'points' in before ? before.points.at(-1) : undefined;
    const next = after !== undefined && 'points' in after ? after.points[0] : undefined;
    return stretchOf(piece, last ?? middleOf(before ?? piece), next ?? middleOf(after ?? piece));
  });
  const ends: (readonly [Point, Point])[] = [];
  const fillets: ReturnType<typeof filletOf>[] = [];
  for (const [i, s] of stretches.entries()) {
    const next = stretches[(i + 1) % n];
    if (s === null || next === null || next === undefined) return null;
    const radius = pieces[i]?.fillet;
    const fillet = radius === undefined ? null : filletOf(s, next, radius);
    if (radius !== undefined && fillet === null) return null;
    fillets.push(fillet);
    ends.push(fillet === null ? handOver(s, next) : [fillet.from, fillet.to]);
  }
  const start = ends[n - 1]?.[1];
  if (start === undefined) return null;
  const edges: Edge[] = [];
  let at = start;
  for (const [i, s] of stretches.entries()) {
    const [end, begin] = ends[i] ?? [start, start];
    if (s?.curve?.kind === 'circle') edges.push({ kind: 'arc', to: end, centre: s.curve.centre, ccw: s.ccw });
    else if (distance(at, end) > 1e-9) edges.push({ kind: 'line', to: end });
    const fillet = fillets[i] ?? null;
    if (fillet !== null) edges.push({ kind: 'arc', to: begin, centre: fillet.centre, ccw: fillet.ccw });
    else if (distance(end, begin) > 1e-9) edges.push({ kind: 'line', to: begin });
    at = begin;
  }
  const path: Path = { start, edges, closed: true };
  const polygon = flatten(path, 0.5);
  return signedArea(path) > 0 && crossingOf(polygon) === null ? { path, rests: pieces.flatMap(restOf) } : null;
};
