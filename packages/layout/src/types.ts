import type { Point } from '@fayplate/core';
import type { Pattern } from '@fayplate/survey';

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
  /** Radians clockwise from 12 o'clock about the circle's own centre to division 0, −π/n ≤ phase < π/n. */
  readonly phase: number;
  /** Divisions, counted clockwise, of `features` in the same order. */
  readonly occupied: readonly number[];
  readonly features: readonly string[];
}

export interface LaidGrid {
  /** mm. */
  readonly step: number;
  readonly says: string;
  readonly features: readonly string[];
}

export interface LaidFeature {
  readonly x: number;
  readonly y: number;
  /** From the measured centre, mm. */
  readonly shift: number;
  /** The measured centre's own 95 % radius, mm. */
  readonly within: number;
}

export interface Candidate {
  readonly says: string;
  readonly circles: readonly LaidCircle[];
  readonly grid: LaidGrid | null;
  /** Radians from +x, through the centre; null where none. */
  readonly mirror: { readonly axis: number } | null;
  readonly chi2: number;
  readonly dof: number;
  readonly p: number | null;
  readonly odds: number;
  readonly features: ReadonlyMap<string, LaidFeature>;
  /** Positions with the covariance of the candidate's free parameters only. */
  readonly pattern: Pattern;
}

export interface FaceLayout {
  readonly name: string;
  readonly candidates: readonly Candidate[];
  readonly asMeasured: number;
  /** Index into candidates; null unless odds ≥ 0.95 and p ≥ 0.01. */
  readonly chosen: number | null;
}

/** The positions that the plate uses for one face, and where they come from. */
export interface UsedPattern {
  readonly source: 'measured' | 'intended' | 'stated';
  readonly pattern: Pattern;
}
