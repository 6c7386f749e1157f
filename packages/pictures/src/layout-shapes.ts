import { type Point, add, dot, polar, subtract } from '@fayplate/core';
import { type Shape, circle, crossHair, inGrey, line, pens } from '@fayplate/drawing';
import type { Candidate, LaidArray, LaidCircle, LaidGrid } from '@fayplate/layout';
import type { LocatedFace } from '@fayplate/survey';
import type { Scale } from './sheet.js';

/**
 * Direction of a division, counter-clockwise from +x: divisions are counted clockwise from the phase, which is
 * clockwise from 12.
 */
const directionOf = (c: LaidCircle, division: number): number =>
  Math.PI / 2 - c.clockwisePhase - (division * 2 * Math.PI) / (c.divisions ?? 1);

const divisionEnds = (c: LaidCircle, scale: Scale): readonly (readonly [Point, Point])[] =>
  c.divisions === null || c.divisions > 48
    ? []
    : Array.from({ length: c.divisions }, (_, k) => {
        const a = directionOf(c, k);
        return [
          add(c.centre, polar(c.diameter / 2 - 2 * scale.capital, a)),
          add(c.centre, polar(c.diameter / 2 + 2 * scale.capital, a)),
        ] as const;
      });

export const circleShapes = (c: LaidCircle, scale: Scale): readonly Shape[] => {
  const empty = Array.from({ length: c.divisions ?? 0 }, (_, k) => k).filter((k) => !c.occupied.includes(k));
  return [
    circle('note', c.centre, c.diameter / 2, pens.centre),
    ...crossHair('note', c.centre, { open: 0, reach: 2 * scale.capital }, pens.hair),
    ...divisionEnds(c, scale).map(([from, to]) => line('note', from, to, pens.hair)),
    ...empty.map((k) =>
      circle('note', add(c.centre, polar(c.diameter / 2, directionOf(c, k))), scale.capital * 0.45, pens.hidden, 1),
    ),
  ];
};

/** Marks on an axis are no closer than this, mm: where the step is finer every second, fifth, tenth … is drawn. */
const CLOSEST = 2;

const stepsApart = (g: LaidGrid): number => [1, 2, 5, 10, 20, 50, 100].find((k) => k * g.step >= CLOSEST) ?? 100;

export const gridWords = (g: LaidGrid): string =>
  'Marks on the two axes: ' +
  (stepsApart(g) === 1 ? `every step of ${g.says}` : `every ${stepsApart(g)} steps of ${g.says}`) +
  `, from ${g.from}.`;

/** The two axes of the grid from its zero, marked at its steps, and each feature's own lines down to them. */
export const gridShapes = (g: LaidGrid, candidate: Candidate, located: LocatedFace): readonly Shape[] => {
  const zero = candidate.features.get(g.from) ?? located.features.get(g.from);
  if (zero === undefined) return [];
  const [ux, uy] = [polar(1, g.axis), polar(1, g.axis + Math.PI / 2)];
  const at = (u: number, v: number): Point => ({ x: zero.x + u * ux.x + v * uy.x, y: zero.y + u * ux.y + v * uy.y });
  const places = g.features.flatMap((id) => {
    const f = candidate.features.get(id);
    return f === undefined ? [] : [{ u: dot(subtract(f, zero), ux), v: dot(subtract(f, zero), uy) }];
  });
  const every = g.step * stepsApart(g);
  const ends = (values: readonly number[]): readonly [number, number] => [
    Math.min(0, ...values) - every,
    Math.max(0, ...values) + every,
  ];
  const marks = ([from, to]: readonly [number, number]): readonly number[] => {
    const first = Math.ceil(from / every);
    return Array.from({ length: Math.floor(to / every) - first + 1 }, (_, k) => (first + k) * every);
  };
  const [alongU, alongV] = [ends(places.map((p) => p.u)), ends(places.map((p) => p.v))];
  const thin = inGrey(pens.hair, 0.35);
  return [
    line('note', at(alongU[0], 0), at(alongU[1], 0), pens.centre),
    line('note', at(0, alongV[0]), at(0, alongV[1]), pens.centre),
    ...marks(alongU).map((u) => line('note', at(u, 0), at(u, 0.8), pens.hair)),
    ...marks(alongV).map((v) => line('note', at(0, v), at(0.8, v), pens.hair)),
    ...places.flatMap(({ u, v }) => [line('note', at(u, 0), at(u, v), thin), line('note', at(0, v), at(u, v), thin)]),
  ];
};

/** The line of symmetry, a little past what is drawn at either end; across it, what joins a single pair. */
export const mirrorShapes = (
  { axis, through, pair, features }: NonNullable<Candidate['mirror']>,
  candidate: Candidate,
  extent: readonly Point[],
): readonly Shape[] => {
  const u = polar(1, axis);
  const along = extent.map((p) => dot(subtract(p, through), u));
  const [from, to] = [Math.min(...along), Math.max(...along)];
  const past = Math.max(5, 0.08 * (to - from));
  const [one, other] = features.map((id) => candidate.features.get(id));
  const across =
    pair === null || one === undefined || other === undefined
      ? []
      : [line('note', one, other, inGrey(pens.hair, 0.35))];
  return [
    line('note', add(through, polar(from - past, axis)), add(through, polar(to + past, axis)), pens.centre),
    ...across,
  ];
};

/** How the middle of a pattern is set off: along its rows from what it is set off from, then across. */
const offsetShapes = ({ centre, axis, offset }: LaidArray, scale: Scale): readonly Shape[] => {
  if (offset === null) return [];
  const corner = subtract(centre, polar(offset.by[1], axis + Math.PI / 2));
  const from = subtract(corner, polar(offset.by[0], axis));
  const thin = inGrey(pens.hair, 0.35);
  return [
    line('note', from, corner, thin),
    line('note', corner, centre, thin),
    ...crossHair('note', centre, { open: 0, reach: scale.capital }, pens.hair),
  ];
};

/** The lines of rows and columns, and the places on them that carry nothing. */
export const arrayShapes = (a: LaidArray, scale: Scale): readonly Shape[] => {
  const [along, across] = [polar(1, a.axis), polar(1, a.axis + Math.PI / 2)];
  const offset = (k: number, count: number, pitch: number | null): number => (k - (count - 1) / 2) * (pitch ?? 0);
  const at = (u: number, v: number): Point => ({
    x: a.centre.x + u * along.x + v * across.x,
    y: a.centre.y + u * along.y + v * across.y,
  });
  const past = 3 * scale.capital;
  const [wide, high] = [
    offset(a.columns - 1, a.columns, a.pitch[0]) + past,
    offset(a.rows - 1, a.rows, a.pitch[1]) + past,
  ];
  const columns = Array.from({ length: a.columns }, (_, i) => offset(i, a.columns, a.pitch[0]));
  const rows = Array.from({ length: a.rows }, (_, j) => offset(j, a.rows, a.pitch[1]));
  const taken = new Set(a.occupied.map((o) => o.join(' ')));
  const empty = columns.flatMap((u, i) => rows.flatMap((v, j) => (taken.has(`${i} ${j}`) ? [] : [at(u, v)])));
  return [
    ...columns.map((u) => line('note', at(u, -high), at(u, high), pens.centre)),
    ...rows.map((v) => line('note', at(-wide, v), at(wide, v), pens.centre)),
    ...offsetShapes(a, scale),
    ...empty.map((p) => circle('note', p, scale.capital * 0.45, pens.hidden, 1)),
  ];
};
