import type { Random } from '@fayplate/core';
import type { Face, Job, Reading } from '@fayplate/job';
import type { Candidate, FaceLayout, UsedPattern } from '@fayplate/layout';
import { type LocatedFace, locateFace } from '@fayplate/survey';
import { covarianceRoot } from '../assembly/chance.js';

/** Draws one way in which a face that is not at hand may truly be: its pattern, exact from then on. */
export type Sampler = (random: Random) => UsedPattern;

/** The last drawings that a layout may be, each with its odds; a coarser one counts for what its finer ones leave. */
const leavesOf = (c: Candidate): readonly { readonly leaf: Candidate; readonly odds: number }[] => {
  const finer = c.finer.flatMap(leavesOf);
  const left = c.odds - finer.reduce((s, f) => s + f.odds, 0);
  return left > 1e-9 ? [...finer, { leaf: c, odds: left }] : finer;
};

/**
 * An adjusted face as one list of numbers: x and y of each centre, then each radius, mm; null where it did not settle
 * as before.
 */
const numbersOf = (located: LocatedFace, ids: readonly string[]): readonly number[] | null => {
  const found = ids.map((id) => located.features.get(id));
  return found.some((f) => f === undefined)
    ? null
    : [...found.flatMap((f) => [f?.x ?? 0, f?.y ?? 0]), ...found.map((f) => f?.radius ?? 0)];
};

/** Holes whose diameter is stated in the same words are one drill's: by feature, the first that is like it. */
const alikeIn = (face: Face): ReadonlyMap<string, string> => {
  const first = new Map<string, string>();
  return new Map(
    face.features.flatMap((f) => {
      if (f.diameter?.plusMinus == null || f.diameterFrom !== 'job') return [];
      const key = `${f.kind} ${f.diameter.value} ${f.diameter.plusMinus}`;
      const like = first.get(key) ?? f.id;
      first.set(key, like);
      return [[f.id, like] as const];
    }),
  );
};

/** The face with one of its readings or stated sizes a standard deviation longer, each in turn. */
const nudged = (face: Face): readonly Face[] => {
  const read = (i: number, change: Partial<Reading>): Face => ({
    ...face,
    readings: face.readings.map((r, k) => (k === i ? { ...r, ...change } : r)),
  });
  const alike = alikeIn(face);
  return [
    ...face.readings.flatMap((r, i): readonly Face[] => {
      const by = r.plusMinus / 2;
      if (r.aside) return [];
      return r.point === null
        ? [read(i, { value: r.value + by })]
        : [
            read(i, { point: { x: r.point.x + by, y: r.point.y } }),
            read(i, { point: { x: r.point.x, y: r.point.y + by } }),
          ];
    }),
    // What is stated in the same words was measured once.
    ...[...new Set(alike.values())].map((first): Face => ({
      ...face,
      features: face.features.map((f) =>
        alike.get(f.id) !== first || f.diameter?.plusMinus == null
          ? f
          : { ...f, diameter: { ...f.diameter, value: f.diameter.value + f.diameter.plusMinus / 2 } },
      ),
    })),
  ];
};

/** Shorter than this share of the longest, a row is no direction of its own. */
const NO_DIRECTION = 1e-5;

/**
 * Lower triangle L with L Lᵀ = C Cᵀ for C given by its columns, each as long as there are numbers: its rows made square
 * to one another in turn. What hangs on rows before it alone has a pivot of zero. From C itself and not from its
 * square, so that what is nearly exact stays so.
 */
const rootOf = (columns: readonly (readonly number[])[], size: number): Float64Array => {
  const l = new Float64Array(size * size);
  const ways: (readonly number[] | null)[] = [];
  const dot = (a: readonly number[], b: readonly number[]): number => a.reduce((s, v, k) => s + v * (b[k] ?? 0), 0);
  const all = Array.from({ length: size }, (_, r) => columns.map((c) => c[r] ?? 0));
  const longest = Math.sqrt(Math.max(0, ...all.map((r) => dot(r, r))));
  for (const [r, given] of all.entries()) {
    let rest = given;
    for (const [k, way] of ways.entries()) {
      if (way === null) continue;
      const by = dot(rest, way);
      l[size * r + k] = by;
      rest = rest.map((v, i) => v - by * (way[i] ?? 0));
    }
    const length = Math.sqrt(dot(rest, rest));
    const own = length > NO_DIRECTION * longest;
    l[size * r + r] = own ? length : 0;
    ways.push(own ? rest.map((v) => v / length) : null);
  }
  return l;
};

/**
 * Root of the joint covariance of centres and radii: what each reading moves by its own standard deviation. A reading
 * from a rim to a rim ties the two, which the centres' covariance alone does not tell. Null where the face does not
 * settle.
 */
export const jointRoot = (
  face: Face,
  instruments: Job['instruments'],
  { pattern }: UsedPattern,
): Float64Array | null => {
  const places = new Map(pattern.ids.map((id, i) => [id, pattern.points[i] ?? { x: 0, y: 0 }]));
  const solved = (f: Face): readonly number[] | null =>
    numbersOf(locateFace({ face: f, instruments }, { next: false, doubts: false, places }), pattern.ids);
  const base = solved(face);
  if (base === null) return null;
  const columns = nudged(face).map((f) => solved(f)?.map((v, i) => v - (base[i] ?? 0)) ?? null);
  const settled = columns.flatMap((c) => (c === null ? [] : [c]));
  return settled.length < columns.length ? null : rootOf(settled, base.length);
};

/**
 * Less than this share of the largest variance is no variance: a drawing leaves a few ways to move, all else follows.
 */
const NO_VARIANCE = 1e-7;

/**
 * Columns whose products with themselves add up to a covariance, the largest variance first (Cholesky with pivoting),
 * until what is left is rounding.
 */
const columnsOf = (c: readonly (readonly number[])[]): readonly (readonly number[])[] => {
  const left = c.map((row) => [...row]);
  const most = Math.max(0, ...left.map((row, i) => row[i] ?? 0));
  const columns: (readonly number[])[] = [];
  while (columns.length < c.length) {
    const pivot = left.reduce((b, row, i) => ((row[i] ?? 0) > (left[b]?.[b] ?? 0) ? i : b), 0);
    const variance = left[pivot]?.[pivot] ?? 0;
    if (!(variance > NO_VARIANCE * most)) break;
    const column = left.map((row) => (row[pivot] ?? 0) / Math.sqrt(variance));
    for (const [i, row] of left.entries())
      for (let j = 0; j < row.length; j++) row[j] = (row[j] ?? 0) - (column[i] ?? 0) * (column[j] ?? 0);
    columns.push(column);
  }
  return columns;
};

/** L z for the first `n` rows of a lower triangle L with `size` rows. */
const timesRoot = (l: Float64Array, size: number, z: readonly number[], rows: readonly number[]): readonly number[] =>
  rows.map((r) => z.reduce((s, v, k) => s + (l[size * r + k] ?? 0) * v, 0));

/** z with L z = y by forward substitution, nothing along what L leaves exact. */
const solveRoot = (l: Float64Array, size: number, y: readonly number[]): readonly number[] => {
  const z: number[] = [];
  for (const [i, v] of y.entries()) {
    const rest = z.reduce((s, w, k) => s + (l[size * i + k] ?? 0) * w, 0);
    const pivot = l[size * i + i] ?? 0;
    z.push(pivot === 0 ? 0 : (v - rest) / pivot);
  }
  return z;
};

/**
 * Draws a face as its figures leave it open: which drawing it was made by, with the odds that the layout has them, or
 * no drawing; then the centres as that drawing and the readings leave them; then the radii as they go with those
 * centres. A pattern that is nearly surely regular is so in every draw: its holes do not stray one by one.
 */
export const samplerOf = (
  face: Face,
  used: UsedPattern,
  layout: FaceLayout | null,
  instruments: Job['instruments'],
): Sampler => {
  const { pattern, radiusSigmas = new Map<string, number>() } = used;
  const n = pattern.ids.length;
  const joint = jointRoot(face, instruments, used);
  const size = joint === null ? 2 * n : 3 * n;
  const root = joint ?? covarianceRoot(pattern.covariance);
  const leaves =
    layout === null || used.source !== 'measured'
      ? []
      : layout.candidates.flatMap(leavesOf).flatMap(({ leaf, odds }) => {
          const at = pattern.ids.map((id) => leaf.pattern.ids.indexOf(id));
          return at.includes(-1) ? [] : [{ odds, at, leaf, columns: columnsOf(leaf.pattern.covariance) }];
        });
  const alike = alikeIn(face);
  const rows = Array.from({ length: 2 * n }, (_, r) => r);
  return (random) => {
    let pick = random.uniform();
    const chosen = leaves.find(({ odds }) => (pick -= odds) < 0);
    const z = Array.from({ length: chosen?.columns.length ?? 2 * n }, () => random.normal());
    const off =
      chosen === undefined
        ? timesRoot(root, size, z, rows)
        : rows.map((r) => {
            const i = chosen.at[r >> 1] ?? 0;
            const [to, from] = [chosen.leaf.pattern.points[i], pattern.points[r >> 1]];
            const drawn = (r & 1) === 0 ? (to?.x ?? 0) - (from?.x ?? 0) : (to?.y ?? 0) - (from?.y ?? 0);
            return chosen.columns.reduce((s, c, k) => s + (c[2 * i + (r & 1)] ?? 0) * (z[k] ?? 0), drawn);
          });
    const z1 = chosen === undefined ? z : solveRoot(root, size, off);
    const z2 = Array.from({ length: n }, () => random.normal());
    const radii = pattern.radii.map((r, i): number | null => {
      if (r === null) return null;
      const sigma = radiusSigmas.get(pattern.ids[i] ?? '') ?? 0;
      const [by = 0] = joint === null ? [sigma * (z2[i] ?? 0)] : timesRoot(root, size, [...z1, ...z2], [2 * n + i]);
      return Math.max(0.1, r + by);
    });
    return {
      ...used,
      radiusSigmas: new Map(),
      pattern: {
        ...pattern,
        points: pattern.points.map((p, i) => ({ x: p.x + (off[2 * i] ?? 0), y: p.y + (off[2 * i + 1] ?? 0) })),
        radii: radii.map((r, i) => {
          const like = pattern.ids.indexOf(alike.get(pattern.ids[i] ?? '') ?? '');
          return like < 0 ? r : (radii[like] ?? r);
        }),
        covariance: pattern.covariance.map((row) => row.map(() => 0)),
      },
    };
  };
};
