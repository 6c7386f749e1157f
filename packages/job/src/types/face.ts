import type { Measure, Path, Point } from '@fayplate/core';
import type { Fault } from './fault.js';
import type { Reading } from './reading.js';
import type { Length } from './stack.js';

/** From where a face is looked at: from off the part, or through it. */
/**
 * `off the old plate`: on the side of the old plate that lay on the part, which is the part's mirror image, as from
 * behind.
 */
export type Viewed = 'from outside' | 'from behind' | 'off the old plate';

/** `drilled` is a face too: named 'drilled', its features the plate's holes (H1 …) that its readings name. */
export interface Face {
  readonly name: string;
  readonly viewed: Viewed | 'from side A' | 'from side B';
  /** The part is not at hand: ± of a seller's figures that state none of their own, mm; left out or null: it is. */
  readonly seller?: number | null;
  /** Feature whose centre is (0, 0). */
  readonly centre: string | null;
  /** Features whose circle has its centre at (0, 0), where nothing marks it; `centre` is null then. */
  readonly centreCircle?: readonly string[];
  /** They are those of the layout, and the shaft runs at the centre of its circle; left out: the job names them. */
  readonly centreLaid?: true;
  /** Feature on the +y axis. */
  readonly up: string | null;
  /** Two features: the line from the first to the second runs along +x. */
  readonly across: readonly [string, string] | null;
  readonly features: readonly Feature[];
  /** Features of one size: what is not read of it is taken from those that are; left out: none are said to be. */
  readonly alike?: readonly string[];
  readonly readings: readonly Reading[];
  readonly layout: LayoutSpec;
  readonly flange: number | null;
  /** ± of the flange's thickness, mm; left out: none is written. */
  readonly flangeWithin?: number;
  /** The feature on whose centre the shaft runs; null: none is named. */
  readonly shaft: string | null;
  /** What turns with the shaft and must pass the plate; null where nothing is said. */
  readonly shaftSizes: ShaftSizes | null;
  readonly rim: readonly RimPoint[];
  /**
   * Where the pieces of a rim are written, in their order, for faults that only the centres show; left out where none
   * is written.
   */
  readonly rimWritten?: readonly Pick<Fault, 'line' | 'column' | 'found' | 'path'>[];
  /** What is fastened to the part or reached from it; left out: nothing. */
  readonly places?: readonly FacePlace[];
  /** The published standard that the face was taken from; null where it was measured alone. */
  readonly standard: FaceStandard | null;
}

/** A place in the frame of a face as viewed, and behind it (before it where below zero); mm. */
export interface PlaceSpot {
  readonly x: Length;
  readonly y: Length;
  readonly behind: Length;
}

/** Something fastened to a part, or reached from it: where it lies on the part, and where it lay on the old one. */
export interface FacePlace {
  readonly name: string;
  readonly instrument: string | null;
  readonly now: PlaceSpot;
  /** From the old part's shaft and face, viewed the same way as it stood; null: not said. */
  readonly old: PlaceSpot | null;
}

/** A shaft, rod or pipe from one place to another, and what it must keep to, mm; null: no bound on that side. */
export interface MovedLength {
  readonly name: string;
  readonly between: readonly [MovedEnd, MovedEnd];
  readonly least: number | null;
  readonly most: number | null;
}

/** A place by its face and its name. */
export interface MovedEnd {
  readonly face: string;
  readonly place: string;
}

/** A size with its limits, mm, and its class of fit where it has one. */
export interface SizeLimits {
  readonly nominal: number;
  readonly least: number;
  readonly most: number;
  readonly fit: string | null;
}

/**
 * What a face took from a standard: its features have the standard's limits for their ±, its readings named `standard
 * …` their places.
 */
export interface FaceStandard {
  /** `IEC FF165`. */
  readonly name: string;
  /** The standard and its edition. */
  readonly standard: string;
  readonly read: 'two places' | 'one source' | 'from memory';
  readonly source: string;
  readonly disagree: readonly string[];
  /** ± of one hole's place about the register, mm. */
  readonly place: number;
  /** Feature → limits of its diameter, where the standard has them. */
  readonly limits: ReadonlyMap<string, SizeLimits>;
}

/** What a feature is; all but an edge are round. */
export type FeatureKind = 'hole' | 'stud' | 'dowel' | 'bore' | 'spigot' | 'edge' | 'boss';

/** One hole, stud, dowel, bore, spigot or boss of a face, as written. Lengths in mm. */
export interface Feature {
  readonly id: string;
  readonly kind: FeatureKind;
  /** Diameter, mm; with a ± it is an observation, without one exact. Null where not stated. */
  readonly diameter: Measure | null;
  /** Where `diameter` comes from: written in the job, the thread's class limits, or nowhere. */
  readonly diameterFrom: 'job' | 'thread' | null;
  /** As written, such as `3/8-16 UNC`; the handbook reads it. */
  readonly thread: string | null;
  /** Direction about the centre, radians counter-clockwise from +x (12 o'clock is π/2). */
  readonly clock: number | null;
  readonly vacant: boolean;
  readonly stands: number | null;
  readonly deep: number | null;
  /** ± of how far off square a stud may be, radians. */
  readonly lean: number | null;
  /** Height of a boss, mm. */
  readonly height: number | null;
  /** ± of that height, mm; left out: none is written. */
  readonly heightWithin?: number;
}

/** Diameters about the shaft's axis of what must pass the plate, mm; null where not stated. */
export interface ShaftSizes {
  readonly diameter: number | null;
  /** Over the shaft and its key. */
  readonly overKey: number | null;
  readonly coupling: number | null;
  /** A nut or collar on the shaft, over its corners. */
  readonly nut: number | null;
}

/**
 * One piece of the part's outline, in order round it. Places are in the bench frame: a corner; a feature with metal
 * kept around it; a lobe round about a feature, by its radius; a stretch of an arc (three places or more) or of a
 * straight edge (two or more), fitted to what was touched along it.
 */
export type RimPoint = {
  /** Radius between where this piece ends and the next begins, mm; left out: they meet in a corner. */
  readonly fillet?: number;
} & (
  | { readonly at: Point }
  | { readonly feature: string; readonly margin: number }
  | { readonly round: string; readonly radius: number }
  | { readonly along: 'arc' | 'line'; readonly points: readonly Point[] }
);

/** `circles` states equally divided circles; `grid` a step in mm; both may stand. */
export type LayoutSpec =
  | { readonly kind: 'measured'; /** The job does not say which is meant. */ readonly byDefault?: true }
  | { readonly kind: 'intended' }
  | { readonly kind: 'stated'; readonly circles: readonly StatedCircle[]; readonly grid: StatedGrid | null };

/** A circle that the job says the maker meant. Lengths in mm. */
export interface StatedCircle {
  readonly diameter: number | null;
  readonly divisions: number | null;
  /** Feature whose centre the circle is about; null: the face's centre where there is one, else its own. */
  readonly about: string | null;
  /** Radians clockwise from 12 o'clock to division 0; null: free. */
  readonly phase: number | null;
  /** Features on it; null: every stud, hole and dowel of the face that is not vacant. */
  readonly features: readonly string[] | null;
}

/** A square grid that centres are said to lie on: step in mm; null features: all that can be moved. */
export interface StatedGrid {
  readonly step: number;
  readonly features: readonly string[] | null;
}

/** The path type of outlines, named here so that rooms after this one agree on it. */
export type Outline = Path;
