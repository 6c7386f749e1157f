import { type Point, apply, centroid, dot, heading, rotation, subtract, wrapAngle } from '@fayplate/core';
import type { Frame } from '@fayplate/survey';
import { Matrix, inverse } from 'ml-matrix';

/** Positions and their joint covariance (2n × 2n) brought into a frame whose origin and direction are exact. */
export interface Framed {
  readonly points: readonly Point[];
  readonly covariance: Matrix;
}

/** Rows that the frame holds at zero: how the origin (mm) and the direction (radians) move with the points; 3 × 2n. */
export const conditions = (ids: readonly string[], points: readonly Point[], frame: Frame, clocked: readonly string[]): Matrix => {
  const n = points.length;
  const b = Matrix.zeros(3, 2 * n);
  const at = (id: string): number => ids.indexOf(id);
  const o = at(frame.origin);
  for (let i = 0; i < n; i++) {
    const share = o < 0 ? 1 / n : i === o ? 1 : 0;
    b.set(0, 2 * i, share);
    b.set(1, 2 * i + 1, share);
  }
  const turnOf = (i: number, from: Point, k: number): void => {
    const p = points[i];
    if (p === undefined) return;
    const d = subtract(p, from);
    const r2 = Math.max(dot(d, d), 1e-18);
    b.set(2, 2 * i, b.get(2, 2 * i) - (k * d.y) / r2);
    b.set(2, 2 * i + 1, b.get(2, 2 * i + 1) + (k * d.x) / r2);
  };
  const direction = directionOf(frame);
  if (direction.kind === 'line') {
    const from = at(direction.from);
    const to = at(direction.to);
    turnOf(to, points[from] ?? { x: 0, y: 0 }, 1);
    turnOf(from, points[to] ?? { x: 0, y: 0 }, 1);
  } else if (direction.kind === 'up') {
    turnOf(at(direction.to), points[o] ?? centroid(points), 1);
  } else {
    const from = points[o] ?? centroid(points);
    for (const id of clocked) turnOf(at(id), from, 1 / clocked.length);
  }
  return b;
};

type Direction = { readonly kind: 'line'; readonly from: string; readonly to: string } | { readonly kind: 'up'; readonly to: string } | { readonly kind: 'best' };

const directionOf = (frame: Frame): Direction => {
  if ('across' in frame) return { kind: 'line', from: frame.across[0], to: frame.across[1] };
  if ('up' in frame) return { kind: 'up', to: frame.up };
  return frame.direction === 'clocks' ? { kind: 'best' } : { kind: 'up', to: frame.direction.up };
};

/** How to answer in a face's own frame. */
export interface Answering {
  readonly frame: Frame;
  /** Features whose clock positions say where 12 o'clock lies, where the frame goes by the clocks. */
  readonly clocked: readonly string[];
  /** The measured centres, in that frame. */
  readonly measured: readonly Point[];
}

/**
 * Brings a fitted drawing into a face's frame: turned and shifted so that the frame's origin and direction hold exactly, its covariance
 * carried by S = I − G (B G)⁻¹ B (G the rigid motions, B the frame's conditions). Where the direction comes from the clocks, the headings of
 * those features agree on the mean with the measured ones, as they do with the clocks.
 */
export const intoFrame = (ids: readonly string[], points: readonly Point[], covariance: Matrix, answering: Answering): Framed => {
  const { frame, clocked, measured } = answering;
  const o = ids.indexOf(frame.origin);
  const origin = points[o] ?? centroid(points);
  const direction = directionOf(frame);
  const at = (id: string): Point => points[ids.indexOf(id)] ?? origin;
  const turn =
    direction.kind === 'line'
      ? -heading(subtract(at(direction.to), at(direction.from)))
      : direction.kind === 'up'
        ? Math.PI / 2 - heading(subtract(at(direction.to), origin))
        : meanTurn(ids, clocked, points, origin, measured);
  const moved = points.map((p) => apply(rotation(turn), subtract(p, origin)));
  const c = Math.cos(turn);
  const s = Math.sin(turn);
  const turned = Matrix.zeros(covariance.rows, covariance.rows);
  for (let i = 0; i < points.length; i++) {
    turned.set(2 * i, 2 * i, c);
    turned.set(2 * i, 2 * i + 1, -s);
    turned.set(2 * i + 1, 2 * i, s);
    turned.set(2 * i + 1, 2 * i + 1, c);
  }
  const g = new Matrix(moved.flatMap((p) => [[1, 0, -p.y], [0, 1, p.x]]));
  const b = conditions(ids, moved, frame, clocked);
  const carry = Matrix.eye(covariance.rows).sub(g.mmul(inverse(b.mmul(g))).mmul(b)).mmul(turned);
  return { points: moved, covariance: carry.mmul(covariance).mmul(carry.transpose()) };
};

const meanTurn = (ids: readonly string[], clocked: readonly string[], points: readonly Point[], origin: Point, measured: readonly Point[]): number => {
  let sum = 0;
  for (const id of clocked) {
    const i = ids.indexOf(id);
    sum += wrapAngle(heading(measured[i] ?? origin) - heading(subtract(points[i] ?? origin, origin)));
  }
  return sum / Math.max(clocked.length, 1);
};
