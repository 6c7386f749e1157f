import { type Point, centroid, distance } from '@fayplate/core';
import type { Pattern } from '@fayplate/survey';
import { firmFactor, inverseOf } from './fit/dense.js';

/** What the layout is judged from: centres with a joint covariance that belongs to no frame. */
export interface Measured {
  readonly ids: readonly string[];
  readonly points: readonly Point[];
  /** 2n × 2n row by row, mm², positive definite: see `freeOfFrame`. */
  readonly covariance: Float64Array;
  /** Indices of the positions that the maker laid out: studs, holes, dowels. */
  readonly fasteners: readonly number[];
  /** Indices of what a circle may be about, the face's centre first. */
  readonly centres: readonly number[];
  /** What each feature is for; those alike were probably laid out together. */
  readonly sorts: readonly string[];
  /** Radius of the face, mm: 1.25 × the farthest centre from the mean of all. The priors are flat over it. */
  readonly extent: number;
}

/** Smallest variance that is believed, mm²: nobody measures better than 0.01 µm. */
const FLOOR = 1e-10;

/** Orthonormal directions of the rigid motions of these points: shift along x, along y, and a turn about their mean. */
const rigidMotions = (points: readonly Point[]): readonly Float64Array[] => {
  const m = centroid(points);
  const raw = [
    points.flatMap(() => [1, 0]),
    points.flatMap(() => [0, 1]),
    points.flatMap((p) => [m.y - p.y, p.x - m.x]),
  ];
  return raw.flatMap((v) => {
    const length = Math.hypot(...v);
    return length > 0 ? [Float64Array.from(v, (x) => x / length)] : [];
  });
};

const flatten = (rows: readonly (readonly number[])[]): Float64Array => Float64Array.from(rows.flat());

/**
 * The covariance freed of its frame. A face's frame makes an origin and a direction exact, so its covariance C is
 * singular and says nothing of the shape by itself; another choice of frame gives another C for the same readings. With
 * G the orthonormal rigid motions and P = I − G Gᵀ, P C Pᵀ is the same from every frame (an S-transformation to the
 * inner constraints: Baarda 1973), and C' = P C Pᵀ + v G Gᵀ is positive definite. Every hypothesis leaves the drawing
 * free to shift and turn, so v takes no part in any answer; it is the mean variance, for good conditioning.
 */
const freeOfFrame = (points: readonly Point[], covariance: readonly (readonly number[])[]): Float64Array => {
  const size = 2 * points.length;
  const c = flatten(covariance);
  const motions = rigidMotions(points);
  for (const g of motions) {
    const cg = new Float64Array(size);
    for (let i = 0; i < size; i++)
      for (let j = 0; j < size; j++) cg[i] = (cg[i] as number) + (c[i * size + j] as number) * (g[j] as number);
    const gcg = cg.reduce((s, v, i) => s + v * (g[i] as number), 0);
    for (let i = 0; i < size; i++) {
      for (let j = 0; j < size; j++) {
        const [gi, gj] = [g[i] as number, g[j] as number];
        c[i * size + j] = (c[i * size + j] as number) - gi * (cg[j] as number) - (cg[i] as number) * gj + gcg * gi * gj;
      }
    }
  }
  let trace = 0;
  for (let i = 0; i < size; i++) trace += c[i * size + i] as number;
  const v = Math.max(trace / Math.max(size - motions.length, 1), FLOOR);
  for (const g of motions)
    for (let i = 0; i < size; i++)
      for (let j = 0; j < size; j++)
        c[i * size + j] = (c[i * size + j] as number) + v * (g[i] as number) * (g[j] as number);
  for (let i = 0; i < size; i++) c[i * size + i] = (c[i * size + i] as number) + FLOOR;
  return c;
};

/**
 * The covariance as it stands in its frame, with the floor that makes it positive definite: origin and direction stay
 * exact.
 */
const inItsFrame = (covariance: readonly (readonly number[])[]): Float64Array => {
  const c = flatten(covariance);
  for (let i = 0; i < covariance.length; i++)
    c[i * covariance.length + i] = (c[i * covariance.length + i] as number) + FLOOR;
  return c;
};

/** Covariance of rows i and j (2k for x of point k, 2k + 1 for y), mm². */
export const covarianceAt = (measured: Measured, i: number, j: number): number =>
  measured.covariance[2 * measured.points.length * i + j] ?? Number.NaN;

/** Puts a pattern (origin feature included, where the frame has one) into the form that the layout is judged from. */
export const measuredPoints = (
  pattern: Pattern,
  roles: {
    readonly fasteners: readonly string[];
    readonly centres: readonly string[];
    readonly sorts: readonly string[];
  },
  frame: 'free' | 'exact' = 'free',
): Measured => {
  const at = (id: string): number => {
    const i = pattern.ids.indexOf(id);
    if (i < 0) throw new RangeError(`measuredPoints: ${id} is not in the pattern`);
    return i;
  };
  const mean = centroid(pattern.points);
  return {
    ids: pattern.ids,
    points: pattern.points,
    covariance: frame === 'free' ? freeOfFrame(pattern.points, pattern.covariance) : inItsFrame(pattern.covariance),
    fasteners: roles.fasteners.map(at),
    centres: roles.centres.map(at),
    sorts: roles.sorts,
    extent: Math.max(1, 1.25 * Math.max(...pattern.points.map((p) => distance(p, mean)))),
  };
};

/** Inverse of the joint covariance of some of the measured points, the others left free. */
export interface Information {
  /** Indices of the measured points, ascending; rows go x, y of each. */
  readonly indices: readonly number[];
  /** C⁻¹, row by row, mm⁻². */
  readonly inverse: Float64Array;
  /** log √|C|. */
  readonly logVolume: number;
}

export type Informing = (indices: readonly number[]) => Information;

/** Information of any set of the measured points, kept for each set asked for. */
export const informing = (measured: Measured): Informing => {
  const kept = new Map<string, Information>();
  return (wanted) => {
    const indices = [...wanted].sort((a, b) => a - b);
    const key = indices.join(' ');
    const known = kept.get(key);
    if (known !== undefined) return known;
    const rows = indices.flatMap((i) => [2 * i, 2 * i + 1]);
    const some = new Float64Array(rows.length ** 2);
    for (const [i, r] of rows.entries())
      for (const [j, c] of rows.entries()) some[i * rows.length + j] = covarianceAt(measured, r, c);
    const factor = firmFactor(some, rows.length);
    const made: Information = { indices, inverse: inverseOf(factor), logVolume: factor.logRoot };
    kept.set(key, made);
    return made;
  };
};
