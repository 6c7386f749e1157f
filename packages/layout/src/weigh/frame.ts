import { type Point, apply, centroid, dot, heading, rotation, subtract, wrapAngle } from '@fayplate/core';
import { type Frame, circleOrigin } from '@fayplate/survey';
import { factorOf, solveWith } from '../fit/dense.js';

/** How to answer in a face's own frame. */
export interface Answering {
  readonly frame: Frame;
  /** Features whose headings keep their mean, where the frame goes by their clock positions or by the bench. */
  readonly headed: readonly string[];
  /** The measured centres, in that frame. */
  readonly measured: readonly Point[];
}

/**
 * Positions and their joint covariance (2n × 2n, row by row) brought into a frame whose origin and direction are exact.
 */
interface Framed {
  readonly points: readonly Point[];
  readonly covariance: Float64Array;
  readonly turn: number;
  readonly move: (p: Point) => Point;
}

type Direction =
  | { readonly kind: 'line'; readonly from: string; readonly to: string }
  | { readonly kind: 'up'; readonly to: string }
  | { readonly kind: 'headings' };

const directionOf = (frame: Frame): Direction => {
  if ('across' in frame) return { kind: 'line', from: frame.across[0], to: frame.across[1] };
  if ('up' in frame) return { kind: 'up', to: frame.up };
  return typeof frame.direction === 'object' ? { kind: 'up', to: frame.direction.up } : { kind: 'headings' };
};

/**
 * Where the frame's origin lies among these points, mm, and how it moves with them, as rows over x₁ y₁ x₂ y₂ …: a
 * feature, the centre of the circle of some, or the mean of all.
 */
const originOf = (
  ids: readonly string[],
  points: readonly Point[],
  { frame }: Answering,
): { readonly at: Point; readonly rows: readonly [Float64Array, Float64Array] } => {
  const n = points.length;
  const rows = [new Float64Array(2 * n), new Float64Array(2 * n)] as const;
  const on = (frame.circled ?? []).map((id) => ids.indexOf(id));
  const x = Float64Array.from(points.flatMap((p) => [p.x, p.y]));
  const slots = on.map((i) => ({ x: 2 * i, y: 2 * i + 1 }));
  const circle = on.length === 0 || on.includes(-1) ? null : circleOrigin(x, slots);
  if (circle !== null) {
    for (const [k, row] of circle.rows.entries()) for (const [i, v] of row) (rows[k] as Float64Array)[i] = v;
    return { at: circle.at, rows };
  }
  const o = ids.indexOf(frame.origin);
  for (let i = 0; i < n; i++) {
    const share = o < 0 ? 1 / n : i === o ? 1 : 0;
    rows[0][2 * i] = share;
    rows[1][2 * i + 1] = share;
  }
  return { at: points[o] ?? centroid(points), rows };
};

/**
 * The three things that the frame holds at zero, as rows over x₁ y₁ x₂ y₂ …: how its origin (mm) and its direction
 * (radians) move with the points.
 */
export const conditions = (
  ids: readonly string[],
  points: readonly Point[],
  answering: Answering,
): readonly Float64Array[] => {
  const { frame, headed } = answering;
  const { at: from, rows: still } = originOf(ids, points, answering);
  const rows = [...still, new Float64Array(2 * points.length)] as const;
  const at = (id: string): number => ids.indexOf(id);
  const turnOf = (i: number, from: Point, k: number): void => {
    const p = points[i];
    if (p === undefined) return;
    const d = subtract(p, from);
    const r2 = Math.max(dot(d, d), 1e-18);
    rows[2][2 * i] = (rows[2][2 * i] as number) - (k * d.y) / r2;
    rows[2][2 * i + 1] = (rows[2][2 * i + 1] as number) + (k * d.x) / r2;
  };
  const direction = directionOf(frame);
  if (direction.kind === 'up') turnOf(at(direction.to), from, 1);
  else if (direction.kind === 'headings') for (const id of headed) turnOf(at(id), from, 1 / headed.length);
  else {
    turnOf(at(direction.to), points[at(direction.from)] ?? from, 1);
    turnOf(at(direction.from), points[at(direction.to)] ?? from, 1);
  }
  return rows;
};

const meanTurn = (
  ids: readonly string[],
  points: readonly Point[],
  origin: Point,
  { headed, measured }: Answering,
): number => {
  let sum = 0;
  for (const id of headed) {
    const i = ids.indexOf(id);
    sum += wrapAngle(heading(measured[i] ?? origin) - heading(subtract(points[i] ?? origin, origin)));
  }
  return sum / Math.max(headed.length, 1);
};

/**
 * Whether the frame's origin and direction move by less than rounding when the points move along these columns (2n × d,
 * row by row): how many of the three are decided.
 */
export const decidedBy = (rows: readonly Float64Array[], columns: Float64Array, d: number): number => {
  const images = rows.map((row) => {
    const image = new Float64Array(d);
    for (let r = 0; r < row.length; r++)
      for (let p = 0; p < d; p++) image[p] = (image[p] as number) + (row[r] as number) * (columns[r * d + p] as number);
    return image;
  });
  const gram = (some: readonly Float64Array[]): Float64Array =>
    Float64Array.from(some.flatMap((a) => some.map((b) => a.reduce((s, v, p) => s + v * (b[p] as number), 0))));
  const moved = images.filter((image) => Math.hypot(...image) > 1e-9);
  return factorOf(gram(moved), moved.length) === null ? moved.length - 1 : moved.length;
};

/**
 * Brings a fitted drawing into a face's frame: turned and shifted so that the frame's origin and direction hold
 * exactly, its covariance carried by S = I − G (B G)⁻¹ B (G the rigid motions, B the frame's conditions). Where the
 * direction comes from the clocks or the bench, the headings of those features agree on the mean with the measured
 * ones, as they do with the clocks.
 */
export const intoFrame = (
  ids: readonly string[],
  points: readonly Point[],
  covariance: Float64Array,
  answering: Answering,
): Framed => {
  const { frame } = answering;
  const origin = originOf(ids, points, answering).at;
  const direction = directionOf(frame);
  const at = (id: string): Point => points[ids.indexOf(id)] ?? origin;
  const turn =
    direction.kind === 'line'
      ? -heading(subtract(at(direction.to), at(direction.from)))
      : direction.kind === 'up'
        ? Math.PI / 2 - heading(subtract(at(direction.to), origin))
        : meanTurn(ids, points, origin, answering);
  const move = (p: Point): Point => apply(rotation(turn), subtract(p, origin));
  const moved = points.map(move);
  const turned = turnedBy(covariance, points.length, turn);
  return { points: moved, covariance: carried(turned, moved, conditions(ids, moved, answering)), turn, move };
};

const turnedBy = (covariance: Float64Array, n: number, turn: number): Float64Array => {
  const c = Math.cos(turn);
  const s = Math.sin(turn);
  const size = 2 * n;
  const half = new Float64Array(size * size);
  const out = new Float64Array(size * size);
  for (let j = 0; j < size; j++) {
    for (let i = 0; i < n; i++) {
      const x = covariance[2 * i * size + j] as number;
      const y = covariance[(2 * i + 1) * size + j] as number;
      half[2 * i * size + j] = c * x - s * y;
      half[(2 * i + 1) * size + j] = s * x + c * y;
    }
  }
  for (let i = 0; i < size; i++) {
    for (let j = 0; j < n; j++) {
      const x = half[i * size + 2 * j] as number;
      const y = half[i * size + 2 * j + 1] as number;
      out[i * size + 2 * j] = c * x - s * y;
      out[i * size + 2 * j + 1] = s * x + c * y;
    }
  }
  return out;
};

/** S C Sᵀ, with K = (B G)⁻¹ B: C − G (K C) − (K C)ᵀ Gᵀ + G (K C Kᵀ) Gᵀ. */
const carried = (covariance: Float64Array, points: readonly Point[], b: readonly Float64Array[]): Float64Array => {
  const size = 2 * points.length;
  const g = [
    Float64Array.from(points.flatMap(() => [1, 0])),
    Float64Array.from(points.flatMap(() => [0, 1])),
    Float64Array.from(points.flatMap((p) => [-p.y, p.x])),
  ];
  const product = (x: Float64Array, y: Float64Array): number => x.reduce((s, v, i) => s + v * (y[i] as number), 0);
  // (B G)⁻¹ B by normal equations of a 3 × 3 system.
  const bg = b.map((row) => g.map((column) => product(row, column)));
  const normal = Float64Array.from(
    g.flatMap((_, i) => g.map((__, j) => bg.reduce((s, row) => s + (row[i] ?? 0) * (row[j] ?? 0), 0))),
  );
  const factor = factorOf(normal, 3);
  if (factor === null) return covariance;
  const k = [new Float64Array(size), new Float64Array(size), new Float64Array(size)];
  for (let r = 0; r < size; r++) {
    const right = Float64Array.from(g, (_, i) => bg.reduce((s, row, q) => s + (row[i] ?? 0) * (b[q]?.[r] ?? 0), 0));
    for (const [i, v] of solveWith(factor, right).entries()) (k[i] as Float64Array)[r] = v;
  }
  const kc = k.map((row) => {
    const image = new Float64Array(size);
    for (let i = 0; i < size; i++) {
      const w = row[i] as number;
      if (w !== 0)
        for (let j = 0; j < size; j++) image[j] = (image[j] as number) + w * (covariance[i * size + j] as number);
    }
    return image;
  });
  const kck = kc.map((row) => k.map((other) => product(row, other)));
  const out = Float64Array.from(covariance);
  for (let i = 0; i < size; i++) {
    for (let j = 0; j < size; j++) {
      let s = out[i * size + j] as number;
      for (let q = 0; q < 3; q++) {
        const gi = g[q]?.[i] as number;
        const gj = g[q]?.[j] as number;
        s -= gi * (kc[q]?.[j] as number) + (kc[q]?.[i] as number) * gj;
        for (let r = 0; r < 3; r++) s += gi * (kck[q]?.[r] as number) * (g[r]?.[j] as number);
      }
      out[i * size + j] = s;
    }
  }
  return out;
};
