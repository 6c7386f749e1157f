import type { LengthUnit, Point } from '@fayplate/core';

/** `each`: ± of one reading; `zero`: ± of an error that all readings of the instrument share; mm or radians. */
export interface Instrument {
  readonly name: string;
  readonly measures: 'length' | 'angle';
  readonly each: number;
  readonly zero: number | null;
}

/** Readings of the distance between two centres, each with its share of the two radii (see `DistanceForm`). */
export type DistanceKind = 'centres' | 'over' | 'between' | 'step' | 'wall';

/** The kinds of reading of the job file. */
export type ReadingKind =
  | DistanceKind
  | 'dia'
  | 'angle'
  | 'square'
  | 'line'
  | 'flush'
  | 'offset'
  | 'runout'
  | 'at'
  | 'touch';

/**
 * What a run-out reading says beside its value, which is the dial's whole travel in one turn about B (full indicator
 * movement, FIM): twice the distance from B to the centre of A (ASME Y14.5), or on a face at a radius r the rise over
 * 2r.
 */
export interface RunOut {
  /** mm from the axis at which a face was swept; null: the rim of A was. */
  readonly radius: number | null;
  /**
   * Where the surface stands out farthest (a rim from the axis, a face toward the dial): from the direction of the
   * reading's third feature to its fourth, turned by `turn`, radians counter-clockwise. Null: not said.
   */
  readonly high: {
    readonly turn: number;
    /** ± of the direction, radians. */
    readonly within: number;
    /** As written: a feature, or radians clockwise from 12 o'clock. */
    readonly toward: { readonly feature: string } | { readonly clockwise: number };
  } | null;
}

/** One line of a list of readings, every name looked up. */
export interface Reading {
  readonly id: string;
  /** The line as written, without its id and note. */
  readonly text: string;
  readonly kind: ReadingKind;
  /**
   * In the order written; `square A-B C-D` gives A, B, C, D and `offset A B-C` gives A, B, C. `runout A about B` gives
   * A and B, then the two that its direction runs through; of a face B stands for A too.
   */
  readonly features: readonly string[];
  /** mm or radians; π/2 for `square`, 0 for `line` and `flush`, 0 for `at` and `touch` (see `point`). */
  readonly value: number;
  /** The bench-frame place of `at` and `touch`, null for other kinds. */
  readonly point: Point | null;
  /** Of a run-out reading alone. */
  readonly runOut?: RunOut;
  /** mm or radians, k = 2. */
  readonly plusMinus: number;
  readonly instrument: string | null;
  readonly aside: boolean;
  readonly note: string | null;
  /** The unit that the number was written in, for guesses at a misreading and for words; null for angles. */
  readonly unit: LengthUnit | null;
  readonly place: Place;
}

/** Line and column in a text, both from 1; a column counts characters. */
export interface Place {
  readonly line: number;
  readonly column: number;
}
