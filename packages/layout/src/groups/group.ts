import type { Point } from '@fayplate/core';
import type { Drafting, Position } from '../fit/construction.js';
import type { Measured } from '../measured.js';

/**
 * What a circle or pattern is about: a measured feature, or a centre of its own that starts at a guess; `from`: the
 * feature that such a centre may be set off from.
 */
export type About =
  | { readonly feature: number }
  | { readonly own: Point; readonly from?: { readonly feature: number; readonly at: Point } };

/** A direction parameter of a group and how many times the group repeats itself in a whole turn. */
export interface Bearing {
  readonly parameter: number;
  readonly fold: number;
}

/** Parts of one layout: some features and the rule that they share. */
export type Group = Divided | Ring | Mirrored | Opposite | Grid | Lattice;

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

/**
 * Symmetry about a line: pairs and features on the line; on one circle too where `diameter` is given. A single pair has
 * sizes: how far apart its two features are, and how far along the line. Where the line is through nothing measured,
 * `about` is a point near it and `offset` the line's distance to the left of that point.
 */
export interface Mirrored extends Base {
  readonly kind: 'mirrored';
  readonly axis: number;
  readonly pairs: readonly Pair[];
  readonly on: readonly OnAxis[];
  readonly diameter: number | null;
  readonly offset: number;
}

/** Two features, the one to the left looking along the axis first; `across` from the axis, either way. */
export interface Pair {
  readonly left: number;
  readonly right: number;
  readonly along: number;
  readonly across: number;
}

export interface OnAxis {
  readonly feature: number;
  readonly along: number;
}

/** Symmetry about a point: pairs that lie opposite each other. */
export interface Opposite extends Base {
  readonly kind: 'opposite';
  readonly pairs: readonly (readonly [number, number])[];
}

/** Rows and columns, equally spaced, about their middle; one row: equal spacing along a line. */
export interface Lattice extends Base {
  readonly kind: 'array';
  readonly columns: number;
  readonly rows: number;
  /** Along `axis`, then across it; the second is unused for one row, and equal to the first where `square`. */
  readonly pitch: readonly [number, number];
  readonly square: boolean;
  readonly axis: number;
  /** Column and row of each member, from 0. */
  readonly places: readonly (readonly [number, number])[];
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

/** What drawing a group leaves behind: its direction, and where its words are read from. */
export interface Drawn {
  readonly group: Group;
  readonly bearing: Bearing | null;
  /** Index into the construction's quantities of each of its sizes. */
  readonly sizes: readonly number[];
  /** Indices into the construction's marks: its centre, and the direction of its axis or division 0. */
  readonly centre: readonly [number, number];
  readonly axis: number | null;
  /**
   * Indices into the quantities of how far its centre is set off along and across its axis from the mark `centre`; null
   * where that is its centre.
   */
  readonly offset: readonly [number, number] | null;
  /** Index into the quantities of its direction against the first group's; null for the first and for those without. */
  readonly direction: number | null;
}

export interface PriorDensity {
  /** Log prior density of a position, per mm². */
  readonly logPlane: number;
  /** Log prior density of a size, per mm. */
  readonly logSize: number;
}

/** Log prior density of a direction, per radian. */
export const LOG_TURN = -Math.log(2 * Math.PI);

/**
 * Positions are equally likely anywhere on the face's disc (radius `extent`), sizes anywhere from 0 to four times
 * `extent`.
 */
export const priorDensityOf = (measured: Measured): PriorDensity => ({
  logPlane: -Math.log(Math.PI * measured.extent ** 2),
  logSize: -Math.log(4 * measured.extent),
});

/** The fasteners that a group lays out: its members, and the one that its grid counts from. */
export const laidBy = (group: Group, measured: Measured): readonly number[] =>
  group.kind === 'grid' && 'feature' in group.about && measured.fasteners.includes(group.about.feature)
    ? [...group.members, group.about.feature]
    : group.members;

export const centreParameters = (about: About, drafting: Drafting): Position =>
  'feature' in about ? drafting.point(about.feature) : drafting.newPoint(about.own);

export const centreOf = (about: About, measured: Measured): Point => {
  if ('own' in about) return about.own;
  const p = measured.points[about.feature];
  if (p === undefined) throw new RangeError('centreOf: no such feature');
  return p;
};
