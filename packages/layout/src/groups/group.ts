import type { Point } from '@fayplate/core';
import type { Drafting } from '../fit/construction.js';
import type { Measured } from '../measured/points.js';

/** What a circle or pattern is about: a measured feature, or a centre of its own that starts at a guess. */
export type About = { readonly feature: number } | { readonly own: Point };

/** A direction parameter of a group and how many times the group repeats itself in a whole turn. */
export interface Bearing {
  readonly parameter: number;
  readonly fold: number;
}

/** Parts of one layout: some features and the rule that they share. */
export type Group = Divided | Ring | Mirrored | Grid;

interface Base {
  /** Indices of the features that it lays out. */
  readonly members: readonly number[];
  readonly about: About;
}

/** Equal divisions of a circle. */
export interface Divided extends Base {
  readonly kind: 'divided';
  readonly divisions: number;
  /** Division of each member, counted clockwise from the one at `heading`. */
  readonly places: readonly number[];
  readonly heading: number;
  /** Whether `heading` is stated and exact rather than found. */
  readonly held: boolean;
  readonly diameter: number;
}

/** One circle, the holes anywhere on it. */
export interface Ring extends Base {
  readonly kind: 'circle';
  readonly headings: readonly number[];
  readonly diameter: number;
}

/** Symmetry about a line: pairs and features on the line; on one circle too where `diameter` is given. */
export interface Mirrored extends Base {
  readonly kind: 'mirrored';
  readonly axis: number;
  /** Left of the axis first, looking along it. */
  readonly pairs: readonly (readonly [number, number])[];
  readonly on: readonly number[];
  readonly diameter: number | null;
}

/** Coordinates that are whole multiples of a step from what the grid is about. */
export interface Grid extends Base {
  readonly kind: 'grid';
  readonly step: number;
  readonly unit: 'in' | 'mm';
  /** Direction of the first axis. */
  readonly axis: number;
  readonly held: boolean;
  /** Steps of each member along the first axis and to its left. */
  readonly steps: readonly (readonly [number, number])[];
}

/** What drawing a group leaves behind: its direction, and the parameters that its words are read from. */
export interface Drawn {
  readonly group: Group;
  readonly centre: readonly [number, number];
  readonly bearing: Bearing | null;
  /** Index into the construction's quantities of each of its sizes. */
  readonly sizes: readonly number[];
}

export interface Room {
  /** Log prior density of a position, per mm². */
  readonly logPlane: number;
  /** Log prior density of a size, per mm. */
  readonly logSize: number;
}

/** Log prior density of a direction, per radian. */
export const LOG_TURN = -Math.log(2 * Math.PI);

/** Positions are equally likely anywhere on the face's disc (radius `room`), sizes anywhere from 0 to four times `room`. */
export const roomOf = (measured: Measured): Room => ({
  logPlane: -Math.log(Math.PI * measured.room ** 2),
  logSize: -Math.log(4 * measured.room),
});

export const centreParameters = (about: About, drafting: Drafting): readonly [number, number] =>
  'feature' in about ? drafting.point(about.feature) : drafting.newPoint(about.own);

export const centreOf = (about: About, measured: Measured): Point => {
  if ('own' in about) return about.own;
  const p = measured.points[about.feature];
  if (p === undefined) throw new RangeError('centreOf: no such feature');
  return p;
};
