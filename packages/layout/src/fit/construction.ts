import type { Point } from '@fayplate/core';

/** A parameter and the factor that it enters with. */
export type Term = readonly [parameter: number, factor: number];

/**
 * Where a drawing puts one centre: from the point (x, y), along a direction, `u` along it and `v` to its left.
 * Every number is a constant plus a sum of parameters; this one rule draws circles, grids, mirror images and free points.
 */
export interface Place {
  /** The starting point. */
  readonly from: Position;
  /** Radians counter-clockwise from +x. */
  readonly turn: Linear;
  readonly u: Linear;
  readonly v: Linear;
}

/** x and y of a point. */
export type Position = readonly [Linear, Linear];

export interface Linear {
  readonly constant: number;
  readonly terms: readonly Term[];
}

export const linear = (constant: number, ...terms: readonly Term[]): Linear => ({ constant, terms });
export const nothing: Linear = linear(0);

/**
 * Something that a maker may have set to a chosen value: a size, or a direction against another. `families` are the rules that he
 * may have chosen by; the free value has prior weight `free` and the density that the parameters' own densities give it.
 */
export interface Quantity {
  /** A size is above zero; an offset may be either way, or none. */
  readonly what: 'size' | 'offset' | 'direction';
  readonly value: Linear;
  readonly families: readonly Family[];
  readonly free: number;
}

/** Values offset + k · step, each with prior mass weight · step · (free density there). */
export interface Family {
  readonly weight: number;
  readonly step: number;
  readonly offset: number;
  readonly unit: 'in' | 'mm' | null;
}

/** A drawing as parameters (mm, radians) with prior densities, and a place for each centre that it lays out. */
export interface Construction {
  readonly start: readonly number[];
  /** Log of the product of the parameters' prior densities. */
  readonly logDensity: number;
  /** Index of a measured point → its place. */
  readonly places: ReadonlyMap<number, Place>;
  readonly quantities: readonly Quantity[];
  /** Numbers that are wanted afterwards: centres, axes. */
  readonly marks: readonly Linear[];
}

/** Grows a construction part by part. */
export interface Drafting {
  /** The parameters of a measured point's own position, made where they are not yet there. */
  readonly point: (index: number) => Position;
  /** A new position that is no feature. */
  readonly newPoint: (at: Point) => Position;
  readonly parameter: (start: number, logDensity: number) => number;
  readonly put: (index: number, place: Place) => void;
  readonly quantity: (q: Quantity) => number;
  readonly mark: (l: Linear) => number;
  readonly done: () => Construction;
}

/** `logPlane`: log of the prior density of a position, per mm². */
export const draft = (points: readonly Point[], logPlane: number): Drafting => {
  const start: number[] = [];
  const places = new Map<number, Place>();
  const own = new Map<number, Position>();
  const quantities: Quantity[] = [];
  const marks: Linear[] = [];
  let logDensity = 0;
  const newPoint = (at: Point): Position => {
    logDensity += logPlane;
    start.push(at.x, at.y);
    return [linear(0, [start.length - 2, 1]), linear(0, [start.length - 1, 1])];
  };
  return {
    newPoint,
    point: (index) => {
      const known = own.get(index);
      if (known !== undefined) return known;
      const p = points[index];
      if (p === undefined) throw new RangeError(`draft: no point ${index}`);
      const made = newPoint(p);
      own.set(index, made);
      places.set(index, { from: made, turn: nothing, u: nothing, v: nothing });
      return made;
    },
    parameter: (value, log) => {
      logDensity += log;
      start.push(value);
      return start.length - 1;
    },
    put: (index, place) => {
      places.set(index, place);
    },
    quantity: (q) => quantities.push(q) - 1,
    mark: (l) => marks.push(l) - 1,
    done: () => ({ start, logDensity, places, quantities, marks }),
  };
};

export const valueOf = (l: Linear, parameters: readonly number[]): number => {
  let s = l.constant;
  for (const [p, k] of l.terms) s += k * (parameters[p] ?? Number.NaN);
  return s;
};

/** The centre that a place gives. */
export const positionOf = (place: Place, parameters: readonly number[]): Point => {
  const a = valueOf(place.turn, parameters);
  const u = valueOf(place.u, parameters);
  const v = valueOf(place.v, parameters);
  const c = Math.cos(a);
  const s = Math.sin(a);
  return {
    x: valueOf(place.from[0], parameters) + c * u - s * v,
    y: valueOf(place.from[1], parameters) + s * u + c * v,
  };
};

/** Adds the slopes of a place to two rows of a Jacobian, `add(row, parameter, slope)`, row 0 for x and 1 for y. */
export const slopesOf = (
  place: Place,
  parameters: readonly number[],
  add: (row: 0 | 1, parameter: number, slope: number) => void,
): void => {
  const a = valueOf(place.turn, parameters);
  const u = valueOf(place.u, parameters);
  const v = valueOf(place.v, parameters);
  const c = Math.cos(a);
  const s = Math.sin(a);
  for (const [p, k] of place.from[0].terms) add(0, p, k);
  for (const [p, k] of place.from[1].terms) add(1, p, k);
  for (const [p, k] of place.turn.terms) {
    add(0, p, k * (-s * u - c * v));
    add(1, p, k * (c * u - s * v));
  }
  for (const [p, k] of place.u.terms) {
    add(0, p, k * c);
    add(1, p, k * s);
  }
  for (const [p, k] of place.v.terms) {
    add(0, p, -k * s);
    add(1, p, k * c);
  }
};
