import { type Point, centroid, distance } from '@fayplate/core';
import type { Pattern } from '@fayplate/survey';
import { Matrix } from 'ml-matrix';

/** What the layout is judged from: centres with a joint covariance that belongs to no frame. */
export interface Measured {
  readonly ids: readonly string[];
  readonly points: readonly Point[];
  /** 2n × 2n, mm², positive definite: see `freeOfFrame`. */
  readonly covariance: Matrix;
  /** Indices of the positions that the maker laid out: studs, holes, dowels. */
  readonly fasteners: readonly number[];
  /** Indices of what a circle may be about, the face's centre first. */
  readonly centres: readonly number[];
  /** What each feature is for; those alike were probably laid out together. */
  readonly sorts: readonly string[];
  /** Radius of the face, mm: 1.25 × the farthest centre from the mean of all. Sets the priors' room. */
  readonly room: number;
}

/** Smallest variance that is believed, mm²: nobody measures better than 0.01 µm. */
const FLOOR = 1e-10;

/** Unit vectors of the three rigid motions of these points: shift along x, along y, and a turn about their mean; 2n × 3. */
const rigidMotions = (points: readonly Point[]): Matrix => {
  const m = centroid(points);
  const rows = points.flatMap((p) => [
    [1, 0, m.y - p.y],
    [0, 1, p.x - m.x],
  ]);
  const g = new Matrix(rows);
  for (let c = 0; c < 3; c++) {
    const length = Math.hypot(...g.getColumn(c));
    if (length > 0) for (let r = 0; r < g.rows; r++) g.set(r, c, g.get(r, c) / length);
  }
  return g;
};

/**
 * The covariance freed of its frame. A face's frame makes an origin and a direction exact, so its covariance C is singular
 * and says nothing of the shape by itself; another choice of frame gives another C for the same readings. With G the
 * orthonormal rigid motions and P = I − G Gᵀ, P C Pᵀ is the same from every frame (an S-transformation to the inner
 * constraints: Baarda 1973), and C' = P C Pᵀ + v G Gᵀ is positive definite. Every hypothesis leaves the drawing free to
 * shift and turn, so v takes no part in any answer; it is the mean variance, for good conditioning.
 */
export const freeOfFrame = (points: readonly Point[], covariance: readonly (readonly number[])[]): Matrix => {
  const g = rigidMotions(points);
  const c = new Matrix(covariance.map((row) => [...row]));
  const project = (m: Matrix): Matrix => Matrix.sub(m, g.mmul(g.transpose().mmul(m)));
  const inner = project(project(c).transpose());
  const v = Math.max(inner.trace() / Math.max(inner.rows - 3, 1), FLOOR);
  const free = inner.add(g.mmul(g.transpose()).mul(v));
  for (let i = 0; i < free.rows; i++) {
    free.set(i, i, free.get(i, i) + FLOOR);
    for (let j = 0; j < i; j++) {
      const s = (free.get(i, j) + free.get(j, i)) / 2;
      free.set(i, j, s);
      free.set(j, i, s);
    }
  }
  return free;
};

/** The covariance as it stands in its frame, with the floor that makes it positive definite: origin and direction stay exact. */
const inItsFrame = (covariance: readonly (readonly number[])[]): Matrix => {
  const c = new Matrix(covariance.map((row) => [...row]));
  for (let i = 0; i < c.rows; i++) c.set(i, i, c.get(i, i) + FLOOR);
  return c;
};

/** Puts a pattern (origin feature included, where the frame has one) into the form that the layout is judged from. */
export const measuredPoints = (
  pattern: Pattern,
  roles: { readonly fasteners: readonly string[]; readonly centres: readonly string[]; readonly sorts: readonly string[] },
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
    room: Math.max(1, 1.25 * Math.max(...pattern.points.map((p) => distance(p, mean)))),
  };
};
