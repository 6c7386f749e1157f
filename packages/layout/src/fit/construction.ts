import type { Point } from '@fayplate/core';

/** A parameter and the factor that it enters with. */
export type Term = readonly [parameter: number, factor: number];

/**
 * Where a drawing puts one centre: from the point (x, y), along a direction, `u` along it and `v` to its left.
 * Every number is a constant plus a sum of parameters; this one rule draws circles, grids, mirror images and free
 * points.
 */
interface Place {
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
 * Something that a maker may have set to a chosen value: a size, or a direction against another. `families` are the
 * rules that he may have chosen by; the free value has prior weight `free` and the density that the parameters' own
 * densities give it.
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

/** Puts `parameter` = `by` into a linear form. */
const put = (l: Linear, parameter: number, by: Linear): Linear => {
  let constant = l.constant;
  const terms = new Map<number, number>();
  const add = (p: number, k: number): void => void terms.set(p, (terms.get(p) ?? 0) + k);
  for (const [p, k] of l.terms) {
    if (p !== parameter) add(p, k);
    else {
      constant += k * by.constant;
      for (const [q, j] of by.terms) add(q, k * j);
    }
  }
  return { constant, terms: [...terms].filter(([, k]) => k !== 0) };
};

const renumber = (l: Linear, gone: number): Linear => ({
  constant: l.constant,
  terms: l.terms.map(([p, k]): Term => [p > gone ? p - 1 : p, k]),
});

/**
 * The construction with one of its quantities held at a value: one parameter fewer. The quantity itself stays, for its
 * words.
 */
export const hold = (construction: Construction, quantity: number, value: number): Construction => {
  const q = construction.quantities[quantity];
  if (q === undefined) throw new RangeError(`hold: no quantity ${quantity}`);
  const last = q.value.terms.at(-1);
  if (last === undefined) return construction;
  const [gone, factor] = last;
  const by: Linear = {
    constant: (value - q.value.constant) / factor,
    terms: q.value.terms.slice(0, -1).map(([p, k]): Term => [p, -k / factor]),
  };
  const change = (l: Linear): Linear => renumber(put(l, gone, by), gone);
  const changePlace = (place: Place): Place => ({
    from: [change(place.from[0]), change(place.from[1])],
    turn: change(place.turn),
    u: change(place.u),
    v: change(place.v),
  });
  return {
    start: construction.start.filter((_, i) => i !== gone),
    logDensity: construction.logDensity,
    places: new Map([...construction.places].map(([i, place]) => [i, changePlace(place)])),
    quantities: construction.quantities.map((other) => ({ ...other, value: change(other.value) })),
    marks: construction.marks.map(change),
  };
};

/** Holds several quantities at values; null leaves one free. */
export const holdAll = (construction: Construction, values: readonly (number | null)[]): Construction =>
  values.reduce<Construction>((c, value, i) => (value === null ? c : hold(c, i, value)), construction);

/** Value of a quantity at given parameters. */
export const quantityAt = (construction: Construction, quantity: number, parameters: readonly number[]): number =>
  valueOf(construction.quantities[quantity]?.value ?? { constant: Number.NaN, terms: [] }, parameters);
