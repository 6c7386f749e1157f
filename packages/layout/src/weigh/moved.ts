import { type Point, distance, dot, subtract } from '@fayplate/core';
import { slopesOfPlaces } from '../fit/adjust.js';
import { positionOf } from '../fit/construction.js';
import { factorOf, solveWith } from '../fit/dense.js';
import type { Informing, Measured } from '../measured.js';
import type { Divided, Group, Lattice } from '../groups/group.js';
import { aboutMiddle, at, reach, spread } from '../groups/near.js';
import { MOVED, logMoved } from '../prior/structure.js';
import { type Drafted, construct, draftOf, farthestMove } from './weigh.js';

/** Groups whose places are known well enough, without one of them, for that one to be told as moved. */
type Regular = Divided | Lattice;
const isRegular = (g: Group): g is Regular => g.kind === 'divided' || g.kind === 'array';
/** Fewest members that must stay at their places. */
const LEAST_STAYING = 3;

const without = (group: Regular, feature: number): Group => {
  const k = group.members.indexOf(feature);
  const members = group.members.toSpliced(k, 1);
  return group.kind === 'divided'
    ? { ...group, members, places: group.places.toSpliced(k, 1) }
    : { ...group, members, places: group.places.toSpliced(k, 1) };
};

/**
 * The group with one more feature at each vacant place that it may have been meant for, divisions halved and thirded.
 */
const widened = (group: Regular, feature: number): readonly Regular[] => {
  const members = [...group.members, feature];
  if (group.kind === 'array') {
    const taken = new Set(group.places.map((p) => p.join(' ')));
    return Array.from({ length: group.columns }, (_, i) =>
      Array.from({ length: group.rows }, (__, j) => [i, j] as const),
    )
      .flat()
      .filter((p) => !taken.has(p.join(' ')))
      .map((p) => ({ ...group, members, places: [...group.places, p] }));
  }
  return [1, 2, 3].flatMap((k) => {
    const n = group.divisions * k;
    const places = group.places.map((p) => p * k);
    return Array.from({ length: n }, (_, p) => p)
      .filter((p) => !places.includes(p) && (k === 1 || p % k !== 0))
      .map((p) => ({ ...group, divisions: n, members, places: [...places, p] }));
  });
};

/** Moves less likely than this beside none are not worth drawing. */
const SLIGHT = 1e-3;

/**
 * By how much χ² falls when one feature of a composition is let go, for each: gᵀ Q⁻¹ g with g = C⁻¹ r and
 * Q = C⁻¹ − C⁻¹ J Σ Jᵀ C⁻¹ at that feature (the test for a single outlier: Baarda 1968, A testing procedure for use in
 * geodetic networks, from memory); with the standard deviation of the place against the rest, mm.
 */
const lettingGo = (
  measured: Measured,
  c: Drafted,
  inform: Informing,
): ReadonlyMap<number, readonly [number, number]> => {
  const laid = [...c.construction.places.keys()];
  const { indices, inverse: n } = inform(laid);
  const m = 2 * indices.length;
  const d = c.adjusted.parameters.length;
  const all = slopesOfPlaces(c.construction, c.adjusted.parameters, measured.points.length);
  const j = Float64Array.from({ length: m * d }, (_, e) => {
    const row = Math.floor(e / d);
    return all[(2 * (indices[row >> 1] ?? 0) + (row & 1)) * d + (e % d)] as number;
  });
  const r = new Float64Array(m);
  for (const [k, i] of indices.entries()) {
    const place = c.construction.places.get(i);
    if (place === undefined) continue;
    const fitted = positionOf(place, c.adjusted.parameters);
    r[2 * k] = at(measured, i).x - fitted.x;
    r[2 * k + 1] = at(measured, i).y - fitted.y;
  }
  const row = (i: number): Float64Array => n.subarray(i * m, (i + 1) * m);
  const product = (a: Float64Array, b: Float64Array): number => {
    let s = 0;
    for (let i = 0; i < a.length; i++) s += (a[i] as number) * (b[i] as number);
    return s;
  };
  const out = new Map<number, readonly [number, number]>();
  for (const [k, i] of indices.entries()) {
    const nj = [2 * k, 2 * k + 1].map((q) => {
      const image = new Float64Array(d);
      for (let e = 0; e < m; e++) {
        const v = n[q * m + e] as number;
        if (v !== 0) for (let p = 0; p < d; p++) image[p] = (image[p] as number) + v * (j[e * d + p] as number);
      }
      return image;
    });
    const carried = nj.map((image) =>
      Float64Array.from({ length: d }, (_, p) => product(image, c.adjusted.covariance.subarray(p * d, (p + 1) * d))),
    );
    const q = Float64Array.from(
      [0, 1].flatMap((a) =>
        [0, 1].map(
          (b) =>
            (n[(2 * k + a) * m + 2 * k + b] as number) - product(carried[a] as Float64Array, nj[b] as Float64Array),
        ),
      ),
    );
    const factor = factorOf(q, 2);
    if (factor === null) continue;
    const g = Float64Array.from([product(row(2 * k), r), product(row(2 * k + 1), r)]);
    out.set(i, [product(g, solveWith(factor, g)), Math.exp(-factor.logRoot / 2)]);
  }
  return out;
};

/**
 * The composition with one of its holes moved off its place, hole by hole, and with one that it leaves single moved off
 * a vacant place.
 */
export const oneMoved = (measured: Measured, c: Drafted, inform: Informing): readonly Drafted[] => {
  if (c.moved !== null) return [];
  const most = (f: number): number => farthestMove(measured, spread(measured, f) / Math.SQRT2);
  const count = c.groups.reduce((s, g) => s + g.members.length, 0);
  const laid = new Set(c.groups.flatMap((g) => g.members));
  const singles = measured.fasteners.filter((f) => !laid.has(f));
  const falls = lettingGo(measured, c, inform);
  return c.groups.flatMap((group, i) => {
    if (!isRegular(group)) return [];
    const inPlace = group.members.flatMap((feature) => {
      const [fall, sigma] = falls.get(feature) ?? [0, 1];
      const away = Math.sqrt(fall) * sigma;
      const ratio =
        Math.log(MOVED / count) + logMoved(away, sigma, most(feature)) + Math.log(2 * Math.PI * sigma ** 2) + fall / 2;
      if (group.members.length <= LEAST_STAYING || ratio < Math.log(SLIGHT)) return [];
      return draftOf(measured, c.groups.with(i, without(group, feature)), inform, { feature, whole: c.groups }) ?? [];
    });
    if (group.members.length < LEAST_STAYING) return inPlace;
    const off = singles.flatMap((feature) =>
      widened(group, feature).flatMap((wide) => {
        const whole = c.groups.with(i, wide);
        const place = construct(measured, whole).construction.places.get(feature);
        const near =
          place !== undefined &&
          distance(positionOf(place, c.adjusted.parameters), at(measured, feature)) < most(feature);
        return near ? (draftOf(measured, c.groups, inform, { feature, whole }) ?? []) : [];
      }),
    );
    return [...inPlace, ...off];
  });
};

/** More features than this are not searched for rectangles of three corners. */
const FEW = 12;

/** Rectangles of which one corner has moved: three features at a right angle, and one near the place of the fourth. */
export const cornersMoved = (measured: Measured, inform: Informing): readonly Drafted[] => {
  const f = measured.fasteners;
  if (f.length < 4 || f.length > FEW) return [];
  const most = (d: number): number => farthestMove(measured, spread(measured, d) / Math.SQRT2);
  return f.flatMap((b) =>
    f.flatMap((a, i) =>
      f.slice(i + 1).flatMap((c) => {
        if (a === b || c === b) return [];
        const [p, q, r] = [at(measured, a), at(measured, b), at(measured, c)];
        const [u, v] = [subtract(p, q), subtract(r, q)];
        const [long, short] = [Math.hypot(u.x, u.y), Math.hypot(v.x, v.y)];
        const wide = reach(measured, [a, b, c]);
        if (Math.min(long, short) < 2 * wide || Math.abs(dot(u, v)) / Math.max(long, short) > wide) return [];
        const corner: Point = { x: p.x + v.x, y: p.y + v.y };
        return f.flatMap((d): readonly Drafted[] => {
          if ([a, b, c].includes(d)) return [];
          const away = distance(at(measured, d), corner);
          if (away > most(d) || away < spread(measured, d)) return [];
          const axis = Math.atan2(u.y, u.x);
          const left = u.x * v.y - u.y * v.x > 0;
          const places = [
            [1, left ? 0 : 1],
            [0, left ? 0 : 1],
            [0, left ? 1 : 0],
          ] as const;
          const middle = { x: (p.x + r.x) / 2, y: (p.y + r.y) / 2 };
          const shapes = Math.abs(long - short) < wide ? [false, true] : [false];
          return aboutMiddle(measured, [a, c], middle).flatMap((about) =>
            shapes.flatMap((square) => {
              const three: Lattice = {
                kind: 'array',
                members: [a, b, c],
                about,
                columns: 2,
                rows: 2,
                pitch: [long, short],
                square,
                axis,
                places,
              };
              const whole: Lattice = { ...three, members: [a, b, c, d], places: [...places, [1, left ? 1 : 0]] };
              return draftOf(measured, [three], inform, { feature: d, whole: [whole] }) ?? [];
            }),
          );
        });
      }),
    ),
  );
};
