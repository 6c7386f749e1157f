import { type Point, centroid, cross, dot, subtract } from './point.js';

/**
 * A rigid motion of the plane: first a flip of x where `mirrored`, then a turn counter-clockwise, then a shift (mm).
 */
export interface Motion {
  readonly turn: number;
  readonly shift: Point;
  readonly mirrored: boolean;
}

/** The motion that moves nothing. */
export const identity: Motion = { turn: 0, shift: { x: 0, y: 0 }, mirrored: false };
/** A turn about the origin, radians counter-clockwise. */
export const rotation = (turn: number): Motion => ({ ...identity, turn });
/** A shift without a turn. */
export const translation = (x: number, y: number): Motion => ({ ...identity, shift: { x, y } });
/** x → −x: what the eye sees when the same face is looked at from its other side. */
export const flipX: Motion = { ...identity, mirrored: true };

const linear = (m: Motion, p: Point): Point => {
  const x = m.mirrored ? -p.x : p.x;
  const c = Math.cos(m.turn);
  const s = Math.sin(m.turn);
  return { x: c * x - s * p.y, y: s * x + c * p.y };
};

/** Where the motion takes a point. */
export const apply = (m: Motion, p: Point): Point => {
  const q = linear(m, p);
  return { x: q.x + m.shift.x, y: q.y + m.shift.y };
};

/** The motion that does `first` and then `second`. */
export const compose = (second: Motion, first: Motion): Motion => ({
  mirrored: second.mirrored !== first.mirrored,
  turn: second.turn + (second.mirrored ? -first.turn : first.turn),
  shift: apply(second, first.shift),
});

/** The motion that undoes it. */
export const invert = (m: Motion): Motion => {
  const back: Motion = { mirrored: m.mirrored, turn: m.mirrored ? m.turn : -m.turn, shift: { x: 0, y: 0 } };
  const s = linear(back, m.shift);
  return { ...back, shift: { x: -s.x, y: -s.y } };
};

/** Rows of the 2 × 2 linear part, for carrying covariances: C' = A C Aᵀ. */
export const linearPart = (m: Motion): readonly [readonly [number, number], readonly [number, number]] => {
  const c = Math.cos(m.turn);
  const s = Math.sin(m.turn);
  const f = m.mirrored ? -1 : 1;
  return [
    [c * f, -s],
    [s * f, c],
  ];
};

/**
 * The motion without mirror that lays `from` on `to` with the least sum of squares.
 * Umeyama 1991, IEEE PAMI 13(4) 376–380, scale held at 1, in its closed form for the plane.
 */
export const register = (from: readonly Point[], to: readonly Point[]): Motion => {
  const a = centroid(from);
  const b = centroid(to);
  let c = 0;
  let s = 0;
  for (const [i, f] of from.entries()) {
    const t = to[i];
    if (t === undefined) throw new RangeError('register: the two lists differ in length');
    const u = subtract(f, a);
    const v = subtract(t, b);
    c += dot(u, v);
    s += cross(u, v);
  }
  const turn = Math.atan2(s, c);
  const moved = linear(rotation(turn), a);
  return { turn, mirrored: false, shift: subtract(b, moved) };
};
