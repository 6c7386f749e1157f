import type { Point } from '@fayplate/core';
import type { Pattern } from '@fayplate/survey';
import type { Recognition } from './recognise/recognise.js';

/** How a group's division lines or axes stand to those of the layout's first group that has any. */
export type Turned = 'in line' | 'midway' | 'free';

/** A circle of a candidate drawing and the features on it, in the face's frame (x right, y up). */
export interface LaidCircle {
  /** mm. */
  readonly diameter: number;
  /** Written as its maker would: `7 1/2 in`, `190 mm`; null where the diameter is free. */
  readonly size: string | null;
  readonly centre: Point;
  /** Feature that it is about, or null for a centre of its own. */
  readonly about: string | null;
  /** Null where the holes share the circle only. */
  readonly divisions: number | null;
  /**
   * Radians from 12 o'clock to division 0 about the circle's own centre, −π/n ≤ it < π/n; 0 where there are no
   * divisions.
   */
  readonly clockwisePhase: number;
  /** Divisions, counted clockwise, of `features` in the same order; empty where there are no divisions. */
  readonly occupied: readonly number[];
  readonly features: readonly string[];
  /** Null for the first group, and where there are no divisions. */
  readonly turned: Turned | null;
}

/** How far the middle of a pattern is set off from a feature. */
export interface LaidOffset {
  readonly from: string;
  /** Along the axis and to its left, mm. */
  readonly by: readonly [number, number];
  /** Each as its maker would write it, without its sign; null where free. */
  readonly size: readonly [string | null, string | null];
}

/** How a single pair lies to its line of symmetry. */
export interface LaidPair {
  readonly from: string;
  /** From that feature along the line to the middle of the pair, and from one of the pair to the other, mm. */
  readonly along: number;
  readonly apart: number;
  /** Each as its maker would write it; null where free. */
  readonly size: { readonly along: string | null; readonly apart: string | null };
}

/** Equal spacing along a line (one row) or a rectangular pattern of rows and columns. */
export interface LaidArray {
  readonly columns: number;
  readonly rows: number;
  /** From column to column and from row to row, mm; null where there is only one. */
  readonly pitch: readonly [number | null, number | null];
  /** Each pitch as its maker would write it; null where free or absent. */
  readonly size: readonly [string | null, string | null];
  readonly centre: Point;
  readonly about: string | null;
  /** Where its centre is its own beside a given one: how far it is set off from that along `axis` and to its left. */
  readonly offset: LaidOffset | null;
  /** Direction of a row, radians counter-clockwise from +x, in (−π/2, π/2]. */
  readonly axis: number;
  /** [column, row] of `features` in the same order, counted along and across `axis` from 0. */
  readonly occupied: readonly (readonly [number, number])[];
  readonly features: readonly string[];
  readonly turned: Turned | null;
}

/** Coordinates that are whole multiples of one step, from `from`, along and across `axis`. */
export interface LaidGrid {
  /** mm. */
  readonly step: number;
  /** `1/32 in`, `0.5 mm`. */
  readonly says: string;
  readonly features: readonly string[];
  /** Feature at the grid's zero; one of the fasteners where the face has no centre. */
  readonly from: string;
  /** Radians counter-clockwise from +x, in (−π/4, π/4]. */
  readonly axis: number;
  readonly turned: Turned | null;
}

/** Where a candidate puts one feature, mm, in the face's frame. */
export interface LaidFeature {
  readonly x: number;
  readonly y: number;
  /** From the measured centre, mm. */
  readonly shift: number;
  /** The measured centre's own 95 % radius, mm: the major semi-axis of its ellipse. */
  readonly within: number;
  /**
   * How far the hole itself may still be from this position at 95 in 100, mm, even if it alone was moved or has worn by
   * more than its readings show: `shift` and `within` together.
   */
  readonly plusMinus: number;
}

/**
 * How much of a drawing is said, each level with all before it: who stands on which equal divisions, rows or steps;
 * about which centre; how groups are turned to one another, and whether a pattern is square; the sizes; the unit that
 * they are round in.
 */
export type LevelName = 'divisions' | 'centre' | 'symmetry' | 'size' | 'system';

/** One level of the likeliest drawing, and the odds of all hypotheses that say the same down to it. */
export interface Level {
  readonly level: LevelName;
  /** What it says, in millimetres where a size is no round figure; '' where there is nothing to say. */
  readonly says: string;
  readonly odds: number;
  /** Whether the positions taken follow it. */
  readonly taken: boolean;
}

/** One drawing that the face may have been made by, with its odds and the positions that follow from it. */
export interface Candidate {
  /** In one line, in millimetres; `sayLayout` says it in the job's unit. */
  readonly says: string;
  readonly circles: readonly LaidCircle[];
  readonly arrays: readonly LaidArray[];
  readonly grid: LaidGrid | null;
  /**
   * The line that the fasteners are symmetrical about: stated by the layout itself (`said`), or following from the rest
   * of it, and then the one nearest to upright. `axis` in radians from +x in [0, π), through `through`; `features`:
   * those that it pairs; `pair`: where a single pair is said to be symmetrical, its sizes. Null where none.
   */
  readonly mirror: {
    readonly axis: number;
    readonly through: Point;
    readonly said: boolean;
    readonly features: readonly string[];
    readonly pair: LaidPair | null;
  } | null;
  /** Features that lie opposite each other about the centre, where that is what the layout says. */
  readonly opposite: readonly string[] | null;
  /** Features that the layout leaves where they were measured. */
  readonly asMeasured: readonly string[];
  /**
   * The one of those that was meant for a place of the layout and has moved or worn off it, by so many mm; null where
   * none.
   */
  readonly moved: { readonly feature: string; readonly by: number } | null;
  /** How far it says everything: `system` for a whole drawing; a coarser one leaves free what is not sure. */
  readonly level: LevelName;
  /** The whole drawings that a coarser one covers, likeliest first; their odds are part of its own. */
  readonly finer: readonly Candidate[];
  /**
   * Misfit of the measured centres to the drawing, its degrees of freedom, and the chance of a worse one; null where
   * dof is 0.
   */
  readonly chi2: number;
  readonly dof: number;
  readonly p: number | null;
  /** Posterior, among all candidates and `asMeasured`. */
  readonly odds: number;
  /** Fasteners only, by id. */
  readonly features: ReadonlyMap<string, LaidFeature>;
  /** Positions in the face's frame with the covariance of the candidate's free parameters only. */
  readonly pattern: Pattern;
}

/**
 * Odds of the unit that the maker's round sizes were in; `none`: no round size, as measured included. They add up to 1.
 */
export interface UnitOdds {
  readonly in: number;
  readonly mm: number;
  readonly mixed: number;
  readonly none: number;
}

/** A reading that would tell the likeliest candidates apart. */
export interface TellingReading {
  /** In the reading language, without value: `centres P1 P5`. */
  readonly reading: string;
  readonly instrument: string | null;
  /** Its ± (k = 2), mm. */
  readonly plusMinus: number;
  /** Expected odds of the candidate that leads once it is taken; `now` before it. */
  readonly expected: number;
  readonly now: number;
  /**
   * What it should read under the likeliest candidates, mm: [index into candidates, or null for as measured; value].
   */
  readonly predicts: readonly (readonly [number | null, number])[];
}

/** What the maker of one face may have intended: every candidate that counts, with its odds. */
export interface FaceLayout {
  readonly name: string;
  /** Likeliest first; with `asMeasured` their odds add up to 1. */
  readonly candidates: readonly Candidate[];
  /** From the coarsest down, of the likeliest drawing; none where nothing simple fits. */
  readonly levels: readonly Level[];
  /** Odds that no simple layout is meant. */
  readonly asMeasured: number;
  /** Index into candidates of the deepest level that is sure; null unless its odds ≥ 0.95 and p ≥ 0.01. */
  readonly chosen: number | null;
  readonly units: UnitOdds;
  /** Null where a whole drawing is chosen or no reading would help. */
  readonly telling: TellingReading | null;
  /** Where the face counts as measured because regular work misses everywhere; else null. */
  readonly rough: Rough | null;
  /** Which standard face it may be; null where there is nothing to compare, or the face names its standard itself. */
  readonly recognised: Recognition | null;
}

/**
 * Regular work that misses everywhere by more than the readings do: what it comes near, and by how much, mm (one
 * standard deviation).
 */
export interface Rough {
  readonly says: string;
  readonly miss: number;
}

/** The positions that the plate uses for one face, and where they come from. */
export interface UsedPattern {
  readonly source: 'measured' | 'intended' | 'stated';
  readonly pattern: Pattern;
  /** Greatest distance between a measured centre and its place in the layout, mm; null where no layout is known. */
  readonly differs?: number | null;
  /** Odds of that layout, where it is the likeliest and nobody has said which of the two is meant; null else. */
  readonly undecided?: number | null;
  /**
   * Feature → standard uncertainty of its radius, mm, however it was measured; none for one that is exact or not known.
   */
  readonly radiusSigmas?: ReadonlyMap<string, number>;
  /**
   * Centre of the circle that the layout puts the fasteners on, in the face's frame; null where it has none, or
   * several.
   */
  readonly circleCentre?: Point | null;
  /**
   * How well the measured centres fix that centre: 2 × 2 covariance in the face's frame, mm²; null or left out where
   * they do not.
   */
  readonly circleSpread?: readonly (readonly number[])[] | null;
}
