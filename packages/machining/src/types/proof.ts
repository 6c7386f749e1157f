import type { Point } from '@fayplate/core';
import type { AssembledReading } from '@fayplate/job';
import type { LocatedFace, Pattern } from '@fayplate/survey';
import type { EaseOption } from '../prove/ease.js';
import type { Mistake } from '../prove/mistake.js';
import type { Measured } from '../prove/places.js';
import type { ReadingPlan } from '../prove/plan.js';
import type { Hand } from '../prove/shape.js';

/** What the drilled plate's own readings say; before it is drilled, what to measure. */
export interface Proof {
  readonly state: 'not drilled' | 'measured';
  readonly holes: readonly ProvedHole[];
  /** Holes and bores of the plate that the readings do not fix. */
  readonly unmeasured: readonly string[];
  readonly goesOn: ReadonlyMap<string, ProvedFace>;
  /** Null where the places agree with the drawing, or where the readings cannot tell. */
  readonly mistake: Mistake | null;
  /**
   * Name in the readings → hole of the plate, where the plate is right but its holes are numbered otherwise than drawn;
   * then a mistake does no harm.
   */
  readonly renumbered: ReadonlyMap<string, string> | null;
  /** What tells the plate from its mirror image. */
  readonly hand: Hand;
  /** The hand is settled, or the pattern serves in a mirror as well. */
  readonly handSure: boolean;
  /** Readings to take: all of them before drilling, afterwards those that would fix what is not fixed. */
  readonly plan: ReadingPlan;
  /**
   * Hole or bore of the plate → where its readings put it, the whole laid on the design, plate frame; left out before
   * drilling.
   */
  readonly places?: ReadonlyMap<string, Point>;
  /** Holes and bores that the job says are drilled up to now, by the plate's own names; left out: all are. */
  readonly soFar?: readonly string[];
  /**
   * The measured pattern under the names that its holes really have, laid on the design, and the diameters that were
   * read; left out before drilling.
   */
  readonly laid?: Pattern;
  readonly sizes?: ReadonlyMap<string, Measured['diameter']>;
  /** Places as adjusted, with suspects; null before drilling. */
  readonly located: LocatedFace | null;
  /** Things the reader should know: what was assumed, what could not be told. */
  readonly notes: readonly string[];
  /** Null before drilling, or where a face has no joint that the readings reach. */
  readonly ok: boolean | null;
}

/** What is laid under one bolt, mm. */
export interface ShimAt {
  readonly hole: string;
  readonly feature: string | null;
  readonly thick: number;
}

/**
 * How the shafts run once the machine stands, as a dial told, and what puts them right. mm and radians, plate frame.
 */
export interface Assembled {
  /** The part that is shifted and shimmed. */
  readonly part: string;
  readonly offset: {
    readonly reading: AssembledReading;
    readonly by: number;
    readonly plusMinus: number;
    readonly limit: number;
    readonly ok: boolean;
    /** Of the part; null where no direction was read. */
    readonly shift: Point | null;
  } | null;
  readonly tilt: {
    readonly reading: AssembledReading;
    readonly by: number;
    readonly plusMinus: number;
    readonly limit: number | null;
    readonly ok: boolean | null;
    /** Toward where the shafts’ faces come nearest; null where no direction was read. */
    readonly high: number | null;
    readonly shims: readonly ShimAt[];
  } | null;
  /** How far the part can be shifted, and what stops it first; null where its sizes are not known. */
  readonly play: { readonly by: string; readonly locates: boolean; readonly most: number } | null;
}

/** One hole as drilled against its place as designed; mm. */
export interface ProvedHole {
  readonly id: string;
  /** Measured less designed place, plate frame, the plate laid on the design with the least sum of squares, mm. */
  readonly dx: number;
  readonly dy: number;
  /** 2·√(dx² + dy²), ASME Y14.5. */
  readonly position: number;
  /** 95 % radius of the measured place, mm. */
  readonly within: number;
  /** H − F, half of it where the mate is tapped; null for what takes no fastener of its own. */
  readonly allowed: number | null;
  readonly ok: boolean;
}

/** Whether the drilled plate goes on one part; lengths in mm. */
export interface ProvedFace {
  readonly probability: number;
  readonly standardError: number;
  /** Smallest radial clearance left at the best shift and turn, mm; below zero it does not go on. */
  readonly slack: number;
  readonly shift: Point;
  /** Radians: how far what was drilled is turned back onto the part. */
  readonly turn: number;
  /** Holes and bores of the plate that hold it, those that bear most first. */
  readonly tight: readonly string[];
  /** Ways to make it go on, the least metal first; empty where it does. Features name their holes. */
  readonly ease: readonly EaseOption[];
  /** Features that took no part, and why. */
  readonly leftOut: readonly string[];
}
