import { type Point, type Random, distance } from '@fayplate/core';
import type { Face, Feature, FeatureKind, Reading } from '@fayplate/job';
import type { Frame, LocatedFace, LocatedFeature } from '@fayplate/survey';
import { CholeskyDecomposition, Matrix } from 'ml-matrix';

/** One distance between centres, with its standard uncertainty, mm. */
export interface Taken {
  readonly from: string;
  readonly to: string;
  readonly sigma: number;
}

export interface Shop {
  readonly ids: readonly string[];
  readonly points: readonly Point[];
  /** In the frame of `origin` and `up` (which must lie on +y), from the readings: (Jᵀ W J)⁻¹. */
  readonly covariance: Matrix;
  readonly origin: string;
  readonly up: string;
  readonly kinds: ReadonlyMap<string, FeatureKind>;
  /** How the centres move with errors of the readings, 2n × readings: (Jᵀ W J)⁻¹ Jᵀ W. */
  readonly gain: Matrix;
  readonly readings: readonly Taken[];
}

/** Turns and shifts points so that `origin` is (0, 0) and `up` on +y. */
export const settleFrame = (
  ids: readonly string[],
  points: readonly Point[],
  origin: string,
  up: string,
): readonly Point[] => {
  const o = points[ids.indexOf(origin)] ?? { x: 0, y: 0 };
  const u = points[ids.indexOf(up)] ?? o;
  const turn = Math.PI / 2 - Math.atan2(u.y - o.y, u.x - o.x);
  const c = Math.cos(turn);
  const s = Math.sin(turn);
  return points.map((p) => ({ x: c * (p.x - o.x) - s * (p.y - o.y), y: s * (p.x - o.x) + c * (p.y - o.y) }));
};

const even = (m: Matrix): Matrix => m.clone().add(m.transpose()).mul(0.5);

/** A face of known centres and the covariance that a stated set of distance readings would give. */
export const shop = (
  truth: ReadonlyMap<string, Point>,
  readings: readonly Taken[],
  origin: string,
  up: string,
  kinds: ReadonlyMap<string, FeatureKind>,
): Shop => {
  const ids = [...truth.keys()];
  const points = settleFrame(ids, [...truth.values()], origin, up);
  const at = (id: string): number => ids.indexOf(id);
  const fixed = new Set([2 * at(origin), 2 * at(origin) + 1, 2 * at(up)]);
  const free = Array.from({ length: 2 * ids.length }, (_, i) => i).filter((i) => !fixed.has(i));
  const j = Matrix.zeros(readings.length, 2 * ids.length);
  for (const [row, r] of readings.entries()) {
    const a = points[at(r.from)] ?? { x: 0, y: 0 };
    const b = points[at(r.to)] ?? { x: 0, y: 0 };
    const d = distance(a, b) * r.sigma;
    j.set(row, 2 * at(r.from), (a.x - b.x) / d);
    j.set(row, 2 * at(r.from) + 1, (a.y - b.y) / d);
    j.set(row, 2 * at(r.to), (b.x - a.x) / d);
    j.set(row, 2 * at(r.to) + 1, (b.y - a.y) / d);
  }
  const some = j.subMatrixColumn(free);
  const information = new CholeskyDecomposition(even(some.transpose().mmul(some)));
  if (!information.isPositiveDefinite()) throw new Error('these readings do not fix the face');
  const inverse = information.solve(Matrix.eye(free.length));
  const covariance = Matrix.zeros(2 * ids.length, 2 * ids.length);
  const gain = Matrix.zeros(2 * ids.length, readings.length);
  const weighted = inverse.mmul(some.transpose());
  for (const [a, i] of free.entries())
    for (const [k, r] of readings.entries()) gain.set(i, k, weighted.get(a, k) / r.sigma);
  for (const [a, i] of free.entries())
    for (const [b, k] of free.entries()) covariance.set(i, k, (inverse.get(a, b) + inverse.get(b, a)) / 2);
  return { ids, points, covariance, origin, up, kinds, gain, readings };
};

/** Measured centres from the errors of the readings themselves, mm, in their order. */
export const measureWith = (made: Shop, errors: readonly number[]): readonly Point[] => {
  const moved = made.gain.mmul(Matrix.columnVector([...errors])).to1DArray();
  return made.points.map((p, i) => ({ x: p.x + (moved[2 * i] ?? 0), y: p.y + (moved[2 * i + 1] ?? 0) }));
};

/** Draws measured centres about a shop's true ones from its covariance. */
export const measure = (made: Shop, random: Random): readonly Point[] => {
  const rows = made.covariance.diagonal().flatMap((v, i) => (v > 0 ? [i] : []));
  const l = new CholeskyDecomposition(made.covariance.selection(rows, rows)).lowerTriangularMatrix;
  const z = rows.map(() => random.normal());
  const noise = new Map(rows.map((r, i) => [r, z.reduce((s, v, k) => s + (k <= i ? l.get(i, k) * v : 0), 0)]));
  return made.points.map((p, i) => ({ x: p.x + (noise.get(2 * i) ?? 0), y: p.y + (noise.get(2 * i + 1) ?? 0) }));
};

const feature = (id: string, kind: FeatureKind): Feature => ({
  id,
  kind,
  diameter: null,
  diameterFrom: null,
  thread: null,
  clock: null,
  vacant: false,
  stands: null,
  deep: null,
  lean: null,
  height: null,
});

/** As a job would have it; the value takes no part in a layout. */
const readingOf = ({ from, to, sigma }: Taken, i: number): Reading => ({
  id: String(i + 1),
  text: `centres ${from} ${to}`,
  kind: 'centres',
  features: [from, to],
  value: 0,
  point: null,
  plusMinus: 2 * sigma,
  instrument: 'caliper',
  aside: false,
  note: null,
  unit: 'mm',
  place: { line: 1, column: 1 },
});

/** The face as its job would give it, and as survey would locate it. */
export const faceOf = (
  made: Shop,
  points: readonly Point[],
): { readonly face: Face; readonly located: LocatedFace } => {
  const origin = made.kinds.get(made.origin);
  const face: Face = {
    name: 'face',
    viewed: 'from outside',
    centre: origin === 'spigot' || origin === 'bore' ? made.origin : null,
    up: made.up,
    across: null,
    features: made.ids.map((id) => feature(id, made.kinds.get(id) ?? 'hole')),
    readings: made.readings.map(readingOf),
    layout: { kind: 'intended' },
    flange: null,
    shaft: null,
    shaftSizes: null,
    rim: [],
    standard: null,
  };
  return {
    face,
    located: locatedOf(face.name, { origin: made.origin, up: made.up }, made.ids, points, made.covariance),
  };
};

export const locatedOf = (
  name: string,
  frame: Frame,
  ids: readonly string[],
  points: readonly Point[],
  covariance: Matrix,
): LocatedFace => {
  const features = new Map(
    ids.map((id, i): [string, LocatedFeature] => {
      const xx = covariance.get(2 * i, 2 * i);
      const yy = covariance.get(2 * i + 1, 2 * i + 1);
      const xy = covariance.get(2 * i, 2 * i + 1);
      const h = Math.hypot((xx - yy) / 2, xy);
      const semi = (v: number): number => 2.447747 * Math.sqrt(Math.max(v, 0));
      const p = points[i] ?? { x: 0, y: 0 };
      return [
        id,
        {
          id,
          x: p.x,
          y: p.y,
          radius: null,
          radiusSigma: null,
          covariance: [
            [xx, xy],
            [xy, yy],
          ],
          ellipse95: {
            major: semi((xx + yy) / 2 + h),
            minor: semi((xx + yy) / 2 - h),
            angle: Math.atan2(2 * xy, xx - yy) / 2,
          },
        },
      ];
    }),
  );
  const covarianceOf = (some: readonly string[]): number[][] => {
    const rows = some.flatMap((id) => {
      const i = ids.indexOf(id);
      if (i < 0) throw new RangeError(`${id} is not located`);
      return [2 * i, 2 * i + 1];
    });
    return covariance.selection(rows, rows).to2DArray();
  };
  return {
    name,
    frame,
    features,
    readings: [],
    arrangements: { odds: 1, rivals: [], settle: null, overlaps: [], searched: true },
    explanations: [],
    telling: null,
    leftOut: [],
    unchecked: [],
    fit: { dof: 0, chi2: 0, p: null, sumRedundancy: 0 },
    suspects: [],
    undetermined: [],
    aside: [],
    freedoms: [],
    next: [],
    zeros: new Map(),
    hand: { settled: true, by: 'clocks' },
    bench: null,
    falseAlarm: 0,
    stopped: { converged: true, why: 'at rest', iterations: 1 },
    warnings: [],
    covarianceOf,
  };
};
