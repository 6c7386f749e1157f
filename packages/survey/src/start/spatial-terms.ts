import { apartBy, isDistance } from '@fayplate/job';
import type { Term } from '../adjust/system.js';
import type { Sketch, Tie } from './sketch.js';

/** Three numbers of a vector; slopes are written in the order of the features that the term names, x, y, z of each. */
type Geometry = (p: Float64Array, slopes: Float64Array) => number;

const len = (x: number, y: number, z: number): number => Math.max(Math.hypot(x, y, z), 1e-9);

/** Distance of two points in space. */
const apart: Geometry = (p, g) => {
  const [ax = 0, ay = 0, az = 0, bx = 0, by = 0, bz = 0] = p;
  const d = len(bx - ax, by - ay, bz - az);
  g[0] = -(g[3] = (bx - ax) / d);
  g[1] = -(g[4] = (by - ay) / d);
  g[2] = -(g[5] = (bz - az) / d);
  return d;
};

/** Distance of the first point from the line of the others. */
const offLine: Geometry = (p, g) => {
  const [ax = 0, ay = 0, az = 0, bx = 0, by = 0, bz = 0, cx = 0, cy = 0, cz = 0] = p;
  const [ux, uy, uz] = [cx - bx, cy - by, cz - bz];
  const [wx, wy, wz] = [ax - bx, ay - by, az - bz];
  const t = (wx * ux + wy * uy + wz * uz) / len(ux, uy, uz) ** 2;
  const [nx, ny, nz] = [wx - t * ux, wy - t * uy, wz - t * uz];
  const d = len(nx, ny, nz);
  for (const [k, n] of [nx, ny, nz].entries()) {
    g[k] = n / d;
    g[3 + k] = (-n / d) * (1 - t);
    g[6 + k] = (-n / d) * t;
  }
  return d;
};

/** Angle between the directions from the first to the second and from the third to the fourth point. */
const angle: Geometry = (p, g) => {
  const u = [0, 1, 2].map((k) => (p[3 + k] as number) - (p[k] as number));
  const w = [0, 1, 2].map((k) => (p[9 + k] as number) - (p[6 + k] as number));
  const lu = len(u[0] ?? 0, u[1] ?? 0, u[2] ?? 0);
  const lw = len(w[0] ?? 0, w[1] ?? 0, w[2] ?? 0);
  const cosine = Math.max(-1, Math.min(1, u.reduce((s, v, k) => s + v * (w[k] ?? 0), 0) / (lu * lw)));
  const sine = Math.max(Math.sqrt(1 - cosine * cosine), 1e-3);
  for (let k = 0; k < 3; k++) {
    const uk = (u[k] ?? 0) / lu;
    const wk = (w[k] ?? 0) / lw;
    g[3 + k] = (cosine * uk - wk) / (lu * sine);
    g[9 + k] = (cosine * wk - uk) / (lw * sine);
    g[k] = -(g[3 + k] as number);
    g[6 + k] = -(g[9 + k] as number);
  }
  return Math.acos(cosine);
};

/** Distance from a fixed point of the plane z = 0. */
const fromPoint =
  (x: number, y: number): Geometry =>
  (p, g) => {
    const [ax = 0, ay = 0, az = 0] = p;
    const d = len(ax - x, ay - y, az);
    g[0] = (ax - x) / d;
    g[1] = (ay - y) / d;
    g[2] = az / d;
    return d;
  };

/**
 * Ties are no stiffer than this here, so that readings of every quality bend alike: in mean lengths of a tie, and
 * radians.
 */
const SOFT = 0.0025;

/** One term over the unknowns 3f, 3f + 1, 3f + 2 of each feature f; the same feature may stand twice. */
const spatialTerm = (of: readonly number[], geometry: Geometry, value: number, sigma: number): Term => {
  const unknowns = [...new Set(of)].flatMap((f) => [3 * f, 3 * f + 1, 3 * f + 2]);
  const at = of.map((f) => unknowns.indexOf(3 * f));
  const p = new Float64Array(3 * of.length);
  const g = new Float64Array(3 * of.length);
  return {
    unknowns,
    value,
    sigma,
    model: (x, slopes) => {
      for (const [i, f] of of.entries()) for (let k = 0; k < 3; k++) p[3 * i + k] = x[3 * f + k] as number;
      const v = geometry(p, g);
      if (slopes !== undefined) {
        slopes.fill(0, 0, unknowns.length);
        for (const [i, a] of at.entries())
          for (let k = 0; k < 3; k++) slopes[a + k] = (slopes[a + k] as number) + (g[3 * i + k] as number);
      }
      return v;
    },
  };
};

const spatialTermOf = (sketch: Sketch, tie: Tie): Term | null => {
  const { kind, value, point } = tie.reading;
  const [a = 0, b = 0, c = 0, d = 0] = tie.of;
  const [ra, rb, rc] = [sketch.radii[a] ?? 0, sketch.radii[b] ?? 0, sketch.radii[c] ?? 0];
  const sigma = Math.hypot(tie.sigma, tie.angular ? SOFT : SOFT * sketch.size);
  if (isDistance(kind)) return spatialTerm([a, b], apart, apartBy(kind, value, ra, rb), sigma);
  switch (kind) {
    case 'offset':
      return spatialTerm([a, b, c], offLine, value, sigma);
    case 'line':
      return spatialTerm([b, a, c], offLine, 0, sigma);
    case 'flush':
      // In space an edge has no flank: the centres lie about on a line, to what their radii differ by.
      return spatialTerm([b, a, c], offLine, 0, Math.hypot(sigma, rb - (ra + rc) / 2));
    case 'angle':
      return spatialTerm([b, a, b, c], angle, value, sigma);
    case 'square':
      return spatialTerm([a, b, c, d], angle, Math.PI / 2, sigma);
    case 'touch':
      return point === null ? null : spatialTerm([a], fromPoint(point.x, point.y), ra, sigma);
    case 'at':
      return point === null ? null : spatialTerm([a], fromPoint(point.x, point.y), 0, sigma);
    case 'runout':
      return spatialTerm([a, b], apart, value / 2, sigma);
    case 'dia':
      return null;
  }
};

/** The ties as distances in space. */
export const spatialTermsOf = (sketch: Sketch): readonly Term[] =>
  sketch.ties.flatMap((t) => spatialTermOf(sketch, t) ?? []);

/** What draws each feature to the plane, to be given its strength by `sigma`. */
export const planePenalties = (count: number, sigma: number): readonly Term[] =>
  Array.from({ length: count }, (_, f) => ({
    unknowns: [3 * f + 2],
    value: 0,
    sigma,
    model: (x, slopes) => {
      if (slopes !== undefined) slopes[0] = 1;
      return x[3 * f + 2] as number;
    },
  }));

/**
 * How far each feature with a clock lies off the ray of its clock from the centre (or from the origin, where the face
 * has none), mm, to be given its strength by `sigma`. The clocks are no readings: these only draw an arrangement their
 * way while it is still out of the plane.
 */
export const clockTerms = (sketch: Sketch, sigma: number): readonly Term[] =>
  sketch.clocks.flatMap((clock, f): readonly Term[] => {
    if (clock === null) return [];
    const [c, s] = [Math.cos(clock), Math.sin(clock)];
    const middle = sketch.centre;
    const unknowns = middle === null ? [3 * f, 3 * f + 1] : [3 * f, 3 * f + 1, 3 * middle, 3 * middle + 1];
    const model = (x: Float64Array, slopes?: Float64Array): number => {
      if (slopes !== undefined) for (const [k, v] of [-s, c, s, -c].slice(0, unknowns.length).entries()) slopes[k] = v;
      return unknowns.reduce((sum, u, k) => sum + (x[u] as number) * ([-s, c, s, -c][k] as number), 0);
    };
    return [{ unknowns, value: 0, sigma, model }];
  });
