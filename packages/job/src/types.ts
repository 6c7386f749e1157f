import type { LengthUnit, Measure, Path, Point } from '@fayplate/core';
import type { FaultCode } from './faults/code.js';

/**
 * A job as read: every length in mm, every angle in radians (counter-clockwise positive unless a name says
 * `clockwise`), every ± the band that holds 95 in 100 (u = ± / 2). Optional parts are null, never missing.
 */
export interface Job {
  readonly name: string;
  readonly units: LengthUnit;
  readonly instruments: ReadonlyMap<string, Instrument>;
  readonly faces: readonly Face[];
  readonly plate: PlateSpec | null;
  readonly machine: MachineSpec | null;
  readonly stack: StackSpec | null;
  readonly old: OldPlate | null;
  readonly gaskets: readonly GasketSpec[];
  readonly drilled: Face | null;
  /** What else was measured on the drilled plate; left out or null: nothing. */
  readonly drilledSizes?: DrilledSizes | null;
  /** Fingerprint of the sheets that the plate was drilled by; left out: not said. */
  readonly drilledFrom?: string;
  /** Holes and bores that are drilled up to now, as written; left out or null: all of them. */
  readonly soFar?: readonly string[] | null;
  /**
   * What was measured of each piece of a plate of two, by its name; one that is not drilled yet is left out. Left out:
   * nothing.
   */
  readonly drilledPieces?: ReadonlyMap<string, DrilledPlate>;
  /** Lengths from place to place, with their limits; left out: none. */
  readonly moves?: readonly MovedLength[];
  /** Run-outs read once the machine stands, in the order taken; left out: none. */
  readonly assembled?: readonly AssembledReading[];
  readonly print: PrintSpec | null;
  /** What the workshop drawing says of itself; left out or null: nothing is said. */
  readonly drawing?: DrawingSpec | null;
  /** Work on the parts themselves, done or to do; left out: none. Every length of the job is as it is after it. */
  readonly work?: readonly PartWork[];
  /** The faces before the work, on which the readings were taken; left out: as they stand. */
  readonly asMeasured?: readonly Face[];
  /** Gaps of a trial assembly; left out or null: none taken. */
  readonly trial?: TrialSpec | null;
}

/** What was measured of the drilled plate, or of one piece of it. */
export type DrilledPlate = Pick<Job, 'drilled' | 'drilledSizes' | 'drilledFrom' | 'soFar'>;

/** What was found when the parts were put together for a trial. Lengths in mm. */
export interface TrialSpec {
  /** The part whose joint with the plate was tried. */
  readonly face: string;
  readonly gaps: readonly TrialGap[];
  readonly instrument: string | null;
  /** ± of an error that all the gaps share; null: none is stated. */
  readonly zero: number | null;
  /** Taken between what must not touch: shims open it. Else open in the joint: shims fill it. */
  readonly inside: boolean;
  readonly leave: number;
  /** As compressed, still to go in; null: none. */
  readonly gasket: Length | null;
  readonly shims: { readonly from: readonly number[]; readonly atMost: number } | null;
}

/** One gap; `at` in the frame of its face as viewed, null: at the feature of its name. */
export interface TrialGap {
  readonly name: string;
  readonly at: Point | null;
  readonly value: number;
  readonly plusMinus: number;
}

/** A dial carried on one shaft that sweeps the other, mm: its whole travel in one turn of both together. */
export interface AssembledReading {
  readonly id: string;
  readonly text: string;
  /** The part whose shaft is swept, and the one that carries the dial. */
  readonly swept: string;
  readonly about: string;
  /** mm from the axis at which a face was swept; null: the rim was. */
  readonly radius: number | null;
  readonly travel: number;
  readonly plusMinus: number;
  /**
   * Where what is swept stands out farthest: a hole of the plate or the feature that it is for, or radians clockwise
   * from 12 as drawn. Null: not read.
   */
  readonly toward: { readonly feature: string } | { readonly clockwise: number } | null;
}

/** Sizes of the drilled plate that no reading from hole to hole tells, mm. */
export interface DrilledSizes {
  readonly thickness: number | null;
  /** ± of that thickness, mm; left out: none is written. */
  readonly thicknessWithin?: number;
  /** Recess or raised spigot (`C2`) → how deep it is, or how high. */
  readonly depths: ReadonlyMap<string, number>;
  /** Over all, as drawn; a round plate has one diameter. Left out or null: not measured. */
  readonly outline?: { readonly width: number; readonly height: number } | { readonly diameter: number } | null;
  /** Slot (`H3`) → its width, and the length between its end centres; null where only the other is measured. */
  readonly slots?: ReadonlyMap<string, { readonly width: number | null; readonly length: number | null }>;
}

/** `each`: ± of one reading; `zero`: ± of an error that all readings of the instrument share; mm or radians. */
export interface Instrument {
  readonly name: string;
  readonly measures: 'length' | 'angle';
  readonly each: number;
  readonly zero: number | null;
}

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

/** What is asked of the plate. Lengths in mm, angles in radians. */
export interface PlateSpec {
  /** First face: side A; drawn looking at side B, toward the first face. */
  readonly between: readonly [string, string];
  readonly material: string | null;
  /** Radians clockwise, the second face's 12 o'clock from the first's as drawn; or a range to search. */
  readonly clocking: { readonly at: number } | { readonly search: readonly [number, number] };
  readonly thickness: 'from stack' | 'from old' | number;
  /** What the shop may leave of a stated thickness either way, mm; left out: none is written. */
  readonly thicknessWithin?: number;
  readonly bore: {
    readonly diameter: number;
    readonly side: 'A' | 'B' | 'through';
    readonly depth: number | null;
  } | null;
  /** The job says that nothing passes the plate (`bore: none`). */
  readonly nothingPasses: boolean;
  /** What of the second face is laid over the first's: its shaft's axis, or its centre. */
  readonly meet: 'shafts' | 'centres';
  /** ± of how the axis is picked up again for the plate's second side, mm; null: not stated. */
  readonly secondSetting: number | null;
  readonly locate: ReadonlyMap<string, LocateSpec>;
  readonly fasten: ReadonlyMap<string, FastenSpec>;
  readonly outline: OutlineSpec;
  readonly limits: { readonly web: number | null; readonly edge: MultipleOfDiameter | null };
  /** ± of one hole's place, mm. */
  readonly drilling: number | null;
  readonly alignment: { readonly offset: number | null; readonly tilt: number | null } | null;
  /** Null: the shafts are laid over each other, or as `meet` says. */
  readonly shafts: ShaftsApart | null;
  readonly extras: readonly ExtraHole[];
  readonly cuts: readonly CutSpec[];
  /** ± of the plate's parallelism over its face, mm; null: not stated. */
  readonly parallel: number | null;
  /** Two pieces that are screwed and dowelled together; left out: it is one. */
  readonly pieces?: PiecesSpec;
  /** It is one of two pieces, made from a job that has `pieces`; never written. */
  readonly joint?: PieceJoint;
}

/** What a piece of a plate of two has to know of the other. */
export interface PieceJoint {
  /** Its own name, such as `ring`. */
  readonly piece: string;
  /** The other piece as a face, such as `the plate`. */
  readonly face: string;
  /** The part on the other side of that piece. */
  readonly beyond: string;
  /** It takes the other's screws, and its dowel holes are drilled and reamed through the other's. */
  readonly takes: boolean;
}

/**
 * A plate of two pieces: the first lies on the first face. Lengths in mm; clocks radians counter-clockwise, as drawn,
 * about the first face's axis.
 */
export interface PiecesSpec {
  readonly first: number;
  readonly names: readonly [string, string];
  /** Through the second piece, heads let in on side B, into the first. */
  readonly screws: { readonly thread: string; readonly circle: number; readonly clocks: readonly number[] };
  readonly dowels: { readonly diameter: number; readonly circle: number; readonly clocks: readonly number[] };
}

/** `times` is in diameters, or an absolute length in mm. */
export type MultipleOfDiameter = { readonly times: number } | { readonly length: number };

/** How a face is made concentric with the plate. Lengths in mm. */
export type LocateSpec =
  | {
      readonly as: 'register';
      readonly diameter: Measure;
      readonly depth: number | null;
      readonly fit: string | null;
      /**
       * The one dowel beside it, which keeps the part from turning: its own, in a slot toward the register or a round
       * hole, or a new one; left out: none.
       */
      readonly clock?: { readonly feature: string; readonly slot: boolean } | { readonly diameter: number };
    }
  | { readonly as: 'own dowels'; readonly features: readonly string[]; readonly second: 'slot' | 'round' }
  | {
      readonly as: 'new dowels';
      readonly count: number;
      readonly diameter: number;
      /** Where they sit about the face's centre, radians counter-clockwise as drawn; left out: where there is room. */
      readonly at?: { readonly circle: number; readonly clocks: readonly number[] };
      /** It is set true by indicator before they are drilled; left out: nothing more is said of how. */
      readonly set?: SetTrue;
    };

/** How a part is set true before it is dowelled. Lengths in mm. */
export interface SetTrue {
  /** Full indicator movement to reach, twice the offset; null: half of what the shafts bear. */
  readonly reading: number | null;
  /** A recess that the part's spigot only lies in, wide enough to be shifted; null: none is asked for. */
  readonly register: { readonly diameter: Measure; readonly depth: number | null } | null;
}

/** What a hole of the plate does to its fastener: lets it through, takes its thread, or holds a stud. */
export type FastenAs = 'clearance' | 'tapped' | 'set stud';
/** Size of a clearance hole (ISO 273, ASME B18.2.8). */
export type Fit = 'close' | 'normal' | 'loose';
/** How a nut or head is let into the plate. */
export type Sunk = 'none' | 'counterbored' | 'spotfaced' | 'countersunk';

/** How one face is fastened. Lengths in mm. */
export interface FastenSpec {
  readonly as: FastenAs;
  readonly fit: Fit;
  /** What sits on the fastener on the plate's free side. */
  readonly head: 'nut' | 'cap screw' | 'countersunk screw' | null;
  readonly sunk: Sunk;
  readonly thread: string | null;
  readonly engagement: MultipleOfDiameter | null;
  readonly blind: boolean;
  /** Null: not said; then under nuts, and under no head. */
  readonly washer: boolean | null;
  /** Sizes of a nut or head of the user's own; null: as the tables have it. */
  readonly own: OwnHardware | null;
  /** How long the wire thread inserts of tapped holes are; left out or null: tapped for the bolt itself. */
  readonly insert?: MultipleOfDiameter | null;
  /** Of a stepped stud: the thread of the end that is set in the plate; left out or null: the same as the other. */
  readonly setThread?: string | null;
  /** Feature → its own treatment; 'none' leaves it out. */
  readonly except: ReadonlyMap<string, 'none' | FastenAs>;
}

/** The outline of the plate. Lengths in mm. */
/** A nut or head that is not as the tables have it, mm: old, reduced or of another standard. */
export interface OwnHardware {
  /** Of a nut: across its flats; of a screw: the diameter of its head. */
  readonly across: number;
  readonly height: number;
}

/** The outline of the plate. Lengths in mm. */
export type OutlineSpec =
  | { readonly shape: 'follow'; readonly margin: number; readonly corner: number | null }
  | { readonly shape: 'round'; readonly margin: number | null; readonly diameter: number | null }
  | { readonly shape: 'rectangle'; readonly margin: number; readonly corner: number | null }
  | { readonly shape: 'like'; readonly face: string; readonly margin: number };

/**
 * A cut that fastens nothing: a drain, an oil passage, room for a pipe or a knob. Lengths in mm; `angle` in radians
 * counter-clockwise from +x of its face.
 */
export interface CutSpec {
  readonly name: string;
  readonly what: 'hole' | 'slot' | 'pocket' | 'notch';
  /** Diameter, or the width of a slot, a notch or a pocket with straight sides. */
  readonly width: number;
  /** Between the end centres of a slot; of a pocket with straight sides from end to end; 0 else. */
  readonly length: number;
  /** Of a notch where it opens; null there: at the nearest edge. */
  readonly angle: number | null;
  /** Radius of the corners of a notch or of a pocket with straight sides; left out of all others. */
  readonly corner?: number;
  readonly at: Point | { readonly feature: string };
  /** The face in whose frame it lies, as viewed. */
  readonly face: string;
  /** Null: through. */
  readonly depth: number | null;
  readonly side: 'A' | 'B';
  readonly why: string | null;
}

/**
 * Two shafts that are meant to be apart, for a gear, chain or belt: mm between their axes with the ± that is allowed,
 * and where the second's lies from the first's as drawn: radians clockwise from 12 o'clock, or straight toward a
 * feature of the first face.
 */
export interface ShaftsApart {
  readonly apart: Measure;
  readonly toward: Toward;
}

/**
 * The direction of the second shaft; `within`: the ± that the drive bears of it, radians, left out where none is
 * written.
 */
export type Toward = ({ readonly clockwise: number } | { readonly feature: string }) & { readonly within?: number };

/**
 * Holes asked for beside the faces' own: jacking screws and lifting holes, placed by polar position (clock) about the
 * first face's centre.
 */
export interface ExtraHole {
  readonly what: 'jacking' | 'lifting';
  readonly thread: string;
  readonly circle: number;
  readonly clocks: readonly number[];
}

/** What the shop has; null: not said. Lengths in mm, speed in turns a minute, ratio in crank turns a turn. */
export interface MachineSpec {
  readonly step: number | null;
  readonly topSpeed: number | null;
  readonly screwPitch: number | null;
  /** How far the table travels, mm; left out: not said. */
  readonly travel?: { readonly x: number; readonly y: number };
  /** Signs from which a hole is approached, such as { x: -1, y: -1 }. */
  readonly backlash: { readonly x: -1 | 0 | 1; readonly y: -1 | 0 | 1 } | null;
  /** Diameters on hand, mm, with the name as written. */
  readonly drills: readonly Tool[] | null;
  readonly punches: readonly Tool[] | null;
  readonly reamers: readonly Tool[] | null;
  /** Threads whose taps are on hand; left out: not said. */
  readonly taps?: readonly string[];
  /** Smallest division of a rotary table, radians. */
  readonly rotaryTable?: number;
  /** How far the vice opens and how wide its jaws are, mm. */
  readonly vice?: { readonly opens: number; readonly jaws: number | null };
  /** Of the clamps over the toe, mm. */
  readonly clampWidth?: number;
  readonly dividingHead: { readonly ratio: number; readonly circles: readonly number[] } | null;
  readonly tip: number | null;
  /** The metal on hand, mm; `thickness`: as bought, null where not said. */
  readonly blank: { readonly width: number; readonly height: number; readonly thickness: number | null } | null;
  /** Metal left round the outline on every side until it is sawn, mm; null: the usual. */
  readonly allowance: number | null;
  /** Height of rapid moves above the face of the plate, mm; null: the usual. */
  readonly safePlane: number | null;
  /** Most room between the spindle and the table, mm; null: not said. */
  readonly room: number | null;
  readonly clamps: readonly { readonly from: Point; readonly to: Point }[];
  /**
   * The end mill that cuts the outline, mm; left out: the outline is sawn and filed. `tabs` and `leave` are left out
   * where the usual goes.
   */
  readonly outline?: { readonly cutter: number; readonly tabs?: number; readonly leave?: number };
}

/** A tool by the name that it is known by and its diameter, mm. */
export interface Tool {
  readonly name: string;
  readonly diameter: number;
}

/** The chain of lengths along the shaft, mm, and the one that is looked for. */
/** A length with its ±, mm. */
export interface Length {
  readonly value: number;
  readonly plusMinus: number;
}

/** The plate that worked before, and how far the old and the new shaft stand out, measured the same way; mm. */
export interface OldPlate {
  readonly thickness: Length;
  readonly shims: Length | null;
  readonly reach: {
    readonly old: number;
    readonly new: number;
    /** ± of one of the two readings. */
    readonly each: number;
    /** ± of the error that both share, which cancels; null where none is stated. */
    readonly zero: number | null;
    readonly instrument: string | null;
  } | null;
}

/** The chain of lengths along the shaft, mm, and the one that is looked for. */
export interface StackSpec {
  readonly links: readonly StackLink[];
  readonly unknown: { readonly name: string; readonly from: number; readonly to: number; readonly made: number | null };
  readonly shims: { readonly from: readonly number[]; readonly atMost: number } | null;
  /** Thicknesses of plate on hand, mm; null: any, to 0.1 mm. */
  readonly onHand: readonly number[] | null;
  /**
   * Thicknesses that are bought in the job's system, mm: one that fits is taken before any other where nothing is said
   * to be on hand.
   */
  readonly stock?: readonly number[];
  readonly limits: readonly StackLimit[];
}

/** A length of the chain with its ±, mm. */
export interface StackLink {
  readonly name: string;
  readonly value: number;
  readonly plusMinus: number;
}

/** What a sum of links must keep to, mm; null: no bound on that side. */
export interface StackLimit {
  readonly name: string;
  /** Each link's name with its whole-number factor, usually ±1. */
  readonly sum: ReadonlyMap<string, number>;
  readonly least: number | null;
  readonly most: number | null;
}

/** A gasket for one face. Lengths in mm. */
export interface GasketSpec {
  readonly face: string;
  /** Added to each fastener's diameter, mm. */
  readonly holeClearance: number;
  readonly bore: number | null;
  readonly outline: 'plate' | 'follow' | { readonly like: string };
  /** Features of its face and cuts of the plate that it leaves open as well; left out: none. */
  readonly open?: readonly string[];
}

/** How sheets are printed. Lengths in mm; null: not said. */
export interface PrintSpec {
  /** A name (`A4`, `Letter`) or `210 x 297 mm`, as written. */
  readonly paper: string | null;
  readonly margin: number | null;
  readonly overlap: number | null;
  readonly printer: string | null;
}

/**
 * What is done to a part: studs or dowels or the shaft shortened, longer studs fitted, holes opened or threads
 * deepened, a lip relieved.
 */
export type WorkKind = 'shorten' | 'fit' | 'open' | 'deepen' | 'relieve' | 'shorten shaft';

/** A piece of work on a part. Lengths in mm. */
export interface PartWork {
  readonly name: string;
  readonly face: string;
  readonly kind: WorkKind;
  /** Features that it is done to; none for the shaft. */
  readonly features: readonly string[];
  /** Feature → the length before it: how far it stands out, its diameter or depth; null where not given. */
  readonly from: ReadonlyMap<string, number | null>;
  /** The length after it; 0: flush. */
  readonly to: Measure;
  /** Of a shaft: the link of the stack that is its reach; null: that of the old plate, or none. */
  readonly link: string | null;
  readonly done: boolean;
  readonly why: string | null;
}

/** What a drawing for another shop says of itself; null: not said. */
export interface DrawingSpec {
  readonly number: string | null;
  readonly revision: string | null;
  readonly by: string | null;
  /** The day as written. */
  readonly date: string | null;
  /** Whose habits it follows; null: ISO for a job in mm, ASME for one in inches. */
  readonly standard: 'ISO' | 'ASME' | null;
  /** Most that edges are broken by, mm. */
  readonly edges: number | null;
  /** Surface as it is asked for, such as `Ra 3.2`. */
  readonly surface: string | null;
}

/** The path type of outlines, named here so that rooms after this one agree on it. */
export type Outline = Path;

/** A fault or a warning of the input, for a person: where, what was found, what was expected. */
export interface Fault {
  /** What kind of fault it is: a word that stays, for programs. */
  readonly code: FaultCode;
  readonly line: number;
  readonly column: number;
  /** The offending text, shortened where long. */
  readonly found: string;
  readonly expected: string;
  /** A name that exists and is close to the one written. */
  readonly nearest: string | null;
  /** Dotted place in the file, such as `faces.pump.features.P1.diameter`. */
  readonly path: string;
  /** The CSV list that line and column are in; null for the job file itself. */
  readonly file: string | null;
}

/** A job with its warnings, or every fault of the file. */
export type JobRead =
  | { readonly ok: true; readonly job: Job; readonly warnings: readonly Fault[] }
  | { readonly ok: false; readonly faults: readonly Fault[] };
