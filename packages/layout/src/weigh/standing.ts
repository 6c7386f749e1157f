import { type Circle, type Point, circumcircle, distance } from '@fayplate/core';
import { positionOf } from '../fit/construction.js';
import type { Group } from '../groups/group.js';
import type { Measured } from '../measured.js';
import type { Composition } from './weigh.js';

/** Places that agree to this share of the face's extent are the same. */
export const SAME = 1e-6;

/** What a drawing says of the features of one group: that they stand as the group has them, and where its centre is. */
interface Standing {
  readonly centre: Point | null;
  readonly square: boolean;
}

/** Scale, turn and shift that carry a template onto points, z = c + ρ w; null where none does. */
const similarity = (
  template: readonly Point[],
  points: readonly Point[],
  near: number,
): { readonly centre: Point; readonly scale: number } | null => {
  const [w0, z0] = [template[0], points[0]];
  const k = template.findIndex((w) => w0 !== undefined && distance(w, w0) > 1e-9);
  const [w1, z1] = [template[k], points[k]];
  if (w0 === undefined || z0 === undefined || w1 === undefined || z1 === undefined) return null;
  const [u, v] = [
    { x: w1.x - w0.x, y: w1.y - w0.y },
    { x: z1.x - z0.x, y: z1.y - z0.y },
  ];
  const square = u.x * u.x + u.y * u.y;
  const rho = { x: (v.x * u.x + v.y * u.y) / square, y: (v.y * u.x - v.x * u.y) / square };
  const carry = (w: Point): Point => ({ x: rho.x * w.x - rho.y * w.y, y: rho.x * w.y + rho.y * w.x });
  const from = carry(w0);
  const centre = { x: z0.x - from.x, y: z0.y - from.y };
  const fits = template.every((w, i) => {
    const at = carry(w);
    return distance({ x: centre.x + at.x, y: centre.y + at.y }, points[i] ?? centre) < near;
  });
  return fits ? { centre, scale: Math.hypot(rho.x, rho.y) } : null;
};

/** Rows and columns: the two pitches as vectors, square to each other. */
const lattice = (
  places: readonly (readonly [number, number])[],
  points: readonly Point[],
  columns: number,
  rows: number,
  near: number,
): Standing | null => {
  if (rows === 1) {
    const found = similarity(
      places.map(([i]) => ({ x: i - (columns - 1) / 2, y: 0 })),
      points,
      near,
    );
    return found === null ? null : { centre: found.centre, square: false };
  }
  const [p0, z0] = [places[0], points[0]];
  if (p0 === undefined || z0 === undefined) return null;
  for (const [a, pa] of places.entries()) {
    for (const [b, pb] of places.entries()) {
      const [i, j, k, l] = [pa[0] - p0[0], pa[1] - p0[1], pb[0] - p0[0], pb[1] - p0[1]];
      const determinant = i * l - j * k;
      const [za, zb] = [points[a], points[b]];
      if (determinant === 0 || za === undefined || zb === undefined) continue;
      const [da, db] = [
        { x: za.x - z0.x, y: za.y - z0.y },
        { x: zb.x - z0.x, y: zb.y - z0.y },
      ];
      const u = { x: (l * da.x - j * db.x) / determinant, y: (l * da.y - j * db.y) / determinant };
      const v = { x: (i * db.x - k * da.x) / determinant, y: (i * db.y - k * da.y) / determinant };
      const at = (p: readonly [number, number]): Point => ({
        x: z0.x + (p[0] - p0[0]) * u.x + (p[1] - p0[1]) * v.x,
        y: z0.y + (p[0] - p0[0]) * u.y + (p[1] - p0[1]) * v.y,
      });
      const [long, high] = [Math.hypot(u.x, u.y), Math.hypot(v.x, v.y)];
      if (Math.abs(u.x * v.x + u.y * v.y) > near * Math.max(long, high)) return null;
      return places.every((p, m) => distance(at(p), points[m] ?? z0) < near)
        ? { centre: at([(columns - 1) / 2, (rows - 1) / 2]), square: Math.abs(long - high) < near }
        : null;
    }
  }
  return null;
};

/** One hypothesis, with where it puts every centre that it lays out or counts from, its sizes free. */
export interface Drawing {
  readonly composition: Composition;
  readonly at: ReadonlyMap<number, Point>;
}

export const drawingOf = (composition: Composition): Drawing => ({
  composition,
  at: new Map(
    [...composition.construction.places].map(([i, place]) => [i, positionOf(place, composition.adjusted.parameters)]),
  ),
});

const keyOf = (g: Group): string => JSON.stringify([g.kind, [...g.members].sort((a, b) => a - b), g.about]);

/** How some members of a group stand in another drawing; null where they do not stand as the group has them. */
export const standing = (
  group: Group,
  kept: readonly number[],
  { at, composition }: Drawing,
  near: number,
): Standing | null => {
  const points = kept.flatMap((m) => at.get(group.members[m] ?? -1) ?? []);
  if (points.length < kept.length) return null;
  switch (group.kind) {
    case 'divided': {
      const angle = (m: number): number => (-2 * Math.PI * (group.places[m] ?? 0)) / group.divisions;
      const found = similarity(
        kept.map((m) => ({ x: Math.cos(angle(m)), y: Math.sin(angle(m)) })),
        points,
        near,
      );
      return found === null ? null : { centre: found.centre, square: true };
    }
    case 'array': {
      const places = kept.map((m) => group.places[m] ?? ([0, 0] as const));
      return lattice(places, points, group.columns, group.rows, near);
    }
    case 'circle': {
      const [a, b, c] = points;
      const round: Circle | null = a && b && c ? circumcircle(a, b, c) : null;
      return round !== null && points.every((p) => Math.abs(distance(p, round.centre) - round.radius) < near)
        ? { centre: round.centre, square: false }
        : null;
    }
    case 'grid': {
      const zero = 'feature' in group.about ? at.get(group.about.feature) : undefined;
      if (zero === undefined) return null;
      const template = kept.map((m) => ({
        x: (group.steps[m]?.[0] ?? 0) * group.step,
        y: (group.steps[m]?.[1] ?? 0) * group.step,
      }));
      const found = similarity([{ x: 0, y: 0 }, ...template], [zero, ...points], near);
      return found !== null && Math.abs(found.scale - 1) < SAME ? { centre: zero, square: false } : null;
    }
    default:
      return composition.groups.some((g) => keyOf(g) === keyOf(group))
        ? { centre: 'feature' in group.about ? (at.get(group.about.feature) ?? null) : null, square: false }
        : null;
  }
};

/** Whether the places of so many members alone say where the centre is. */
export const speaks = (group: Group, kept: number): boolean =>
  group.kind === 'divided' ? kept >= 3 : group.kind === 'array' ? kept >= 3 : group.kind === 'circle' && kept >= 4;

/** Whether a group's centre is, in another drawing, the one that the group has. */
export const centred = (
  group: Group,
  { centre }: Standing,
  { at }: Drawing,
  measured: Measured,
  near: number,
): boolean => {
  if ('feature' in group.about) {
    const given = at.get(group.about.feature);
    return given !== undefined && centre !== null && distance(given, centre) < near;
  }
  return measured.centres.every((c) => {
    const given = at.get(c);
    return given === undefined || centre === null || distance(given, centre) >= near;
  });
};
