import { type Path, type Point, distance, flatten } from '@fayplate/core';
import { depthInside } from '../outline/inside.js';
import { type Spine, signedToSpine, spanOf, spineDistance } from '../solids/cut.js';
import type { Plate } from '../types.js';
import type { Gasket } from './draw.js';

/**
 * All places within `radius` of a spine, by its name: an opening of a gasket, or what it has to let by or leave open.
 */
export interface Area {
  readonly name: string;
  /** What its own part calls it, where `name` begins with that part; left out: the same as `name`. */
  readonly own?: string;
  /** Its middle. */
  readonly centre: Point;
  readonly spine: Spine;
  readonly radius: number;
}

export const round = (name: string, at: Point, diameter: number): Area => ({
  name,
  centre: at,
  spine: [at, at],
  radius: diameter / 2,
});

export const openingsOf = ({ bore, holes }: Gasket): readonly Area[] => [
  ...(bore === null ? [] : [round('its bore', bore, bore.diameter)]),
  ...holes.map((h) => ({ name: h.id, centre: h, spine: h.spine ?? ([h, h] as const), radius: h.diameter / 2 })),
];

/** The least width of an area, mm. */
export const widthOf = ({ spine: [a, b, c], radius }: Area): number =>
  2 * radius + (c === undefined ? 0 : Math.min(distance(a, b), distance(b, c)));

/**
 * How far within another area the whole of one lies, mm; below zero where part of it is outside. Exact: both are
 * convex.
 */
export const roomIn = (inner: Area, outer: Area): number =>
  outer.radius - inner.radius - Math.max(...inner.spine.map((p) => signedToSpine(p, outer.spine)));

/** By how much the opening that lets it by best does so, on the diameter, mm; minus its width where none is near. */
export const clearOf = (r: Area, openings: readonly Area[]): number =>
  Math.max(-widthOf(r), ...openings.map((o) => 2 * roomIn(r, o)));

/** How far inside a closed path the whole of an area lies, mm; below zero where part of it reaches out. */
export const depthWithin = ({ spine, radius }: Area, path: Path): number => {
  const corners = Math.min(...spine.map((p) => depthInside(p, path)));
  if (corners < 0 || spanOf(spine) < 1e-9) return corners - radius;
  const points = flatten(path, 0.001);
  const near = points.map((p, i) => spineDistance(spine, [p, points[(i + 1) % points.length] ?? p]));
  return Math.min(corners, ...near) - radius;
};

/**
 * How far the whole of it lies inside both the gasket and the plate, mm; below zero where part of it reaches out of
 * either.
 */
export const depthOf = (r: Area, { gasket, plate }: Laid): number =>
  Math.min(depthWithin(r, gasket.outline), depthWithin(r, plate.outline.path));

export interface Laid {
  readonly plate: Plate;
  readonly gasket: Gasket;
  readonly openings: readonly Area[];
  /** `the gasket of pump`. */
  readonly called: string;
  readonly mm: (v: number) => string;
}
