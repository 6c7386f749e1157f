import type { Box, LengthUnit, Motion, Path, Point } from '@fayplate/core';
import type { AssembledReading } from '@fayplate/job';
import type { CutCentres, PartOperation, Side } from '@fayplate/plate';
import type { Dividing } from './byhand/dividing.js';
import type { Rotary } from './byhand/rotary.js';
import type { Route } from './byhand/routes.js';
import type { LocatedFace, Pattern } from '@fayplate/survey';
import type { EaseOption } from './prove/ease.js';
import type { Mistake } from './prove/mistake.js';
import type { Measured } from './prove/places.js';
import type { PlannedReading, ReadingPlan } from './prove/plan.js';
import type { Hand } from './prove/shape.js';
import type { Approach } from './travel/order.js';

/**
 * The machinist's table. Lengths mm in the table's own axes: origin and horizontal line as stated, seen from side B.
 * Angles radians counter-clockwise.
 */
export interface MachinistTable {
  /** `pump.spigot`, `H3`, `lower left corner of the blank`, … */
  readonly origin: string;
  /** The line made horizontal, in words; null: the drawing's own +x. */
  readonly horizontal: string | null;
  /** `seen from side B`. */
  readonly axes: string;
  readonly unit: LengthUnit;
  /** The machine's step: places are set to whole multiples of it, mm. */
  readonly step: number;
  /** Plate frame → table axes. */
  readonly motion: Motion;
  readonly rows: readonly TableRow[];
  /** One for each side that is cut, in order. */
  readonly setups: readonly Setup[];
  /** What to measure when it is drilled, as `prove` asks for it. */
  readonly plan: ReadingPlan;
  readonly checks: readonly CheckDistance[];
  /** Table travel over the rows as they stand, and with every tool's holes in the plate's own order. */
  readonly travel: { readonly tableOrder: number; readonly asListed: number };
  /** Greatest place error that rounding to the machine's step causes, mm. */
  readonly rounding: number;
  readonly approach: Approach | null;
  readonly blank: Blank;
  /** What the plate is made from, and what is faced off it. */
  readonly stock: Stock;
  /** ± of one hole's place, mm, and whether the job states it. */
  readonly drilling: { readonly plusMinus: number; readonly stated: boolean };
  /** Which centres of each face are cut. */
  readonly centres: readonly CutCentres[];
  /** Height of rapid moves above the flat that is uppermost, mm. */
  readonly safePlane: number;
  /** Most room between spindle and table, mm; null where the job does not say. */
  readonly room: number | null;
  /** Clamps and jaws in the table's axes. */
  readonly clamps: readonly Box[];
  readonly clear: readonly ClampGap[];
  /**
   * Without a read-out: handwheels and dividing head where the job states them, and the other routes that the parts
   * allow.
   */
  readonly byHand: {
    readonly handwheel: Handwheel | null;
    readonly dividing: Dividing | null;
    /** Left out: the job names no rotary table. */
    readonly rotary?: Rotary;
    readonly routes: readonly Route[];
  };
  /** The outline as a program cuts it, or why it cannot; left out: the job names no cutter for it. */
  readonly contour?: ContourMade;
  /** Work on the parts themselves; left out: none. */
  readonly work?: readonly PartOperation[];
  /** Whether every check of the plate itself holds. */
  readonly plateOk: boolean;
  /** Words that the machinist needs beside the rows; none of them repeats a caution. */
  readonly notes: readonly string[];
  /** The same by where they are wanted; what stands in the way of the cutter is among `setting`. */
  readonly notesFor: TableNotes;
}

/** A bridge of metal between plate and blank; mm. */
export interface Tab {
  /** Where the cutter's centre is over its middle on the last pass, as set with the contour's side uppermost. */
  readonly at: Point;
  /** At its narrowest. */
  readonly wide: number;
  /** How far the cutter's centre goes while it is raised. */
  readonly long: number;
}

/** The outline cut by an end mill; mm, as set with its side uppermost, depths below the flat of that side. */
export interface Contour {
  readonly side: Side;
  /** Diameter of the end mill. */
  readonly cutter: number;
  /** What roughing leaves for the last pass; 0: there is none apart. */
  readonly leave: number;
  /**
   * Paths of the cutter's centre, clockwise, from where it comes in; `rough` is null where a hollow leaves no room for
   * two.
   */
  readonly rough: Path | null;
  readonly last: Path;
  /** How deep each time round, in order. */
  readonly passes: { readonly rough: readonly number[]; readonly last: readonly number[] };
  /**
   * The direction in which the cutter comes off the metal, of length 1, and how far from the path it is clear of the
   * blank.
   */
  readonly off: Point;
  readonly far: number;
  readonly tabs: readonly Tab[];
  /** Depth at which the tabs begin. */
  readonly tabTop: number;
  /** rev/min and mm/min; null where the material is not known. */
  readonly speed: number | null;
  readonly feed: number | null;
}

/** The contour, or in words why the cutter cannot make it. */
export type ContourMade =
  | { readonly ok: true; readonly contour: Contour }
  | { readonly ok: false; readonly faults: readonly string[] };

/** What is said beside the rows, by when it is wanted. */
export interface TableNotes {
  /** Where the metal is bought. */
  readonly stock: readonly string[];
  /** Before the first cut: marks, packing, clamps. */
  readonly setting: readonly string[];
  /** Where the tools are laid out: reach, length, other ways, what the shop lacks. */
  readonly tools: readonly string[];
  /** After the last cut. */
  readonly last: readonly string[];
}

/** What a row of the table does. */
export type Operation =
  | 'face'
  | 'turn'
  | 'spot'
  | 'pilot'
  | 'drill'
  | 'bore'
  | 'ream'
  | 'counterbore'
  | 'spotface'
  | 'countersink'
  | 'tap'
  | 'chamfer'
  | 'mill';

/** One cut; lengths in mm. */
export interface TableRow {
  readonly n: number;
  /** Plate hole or bore: H1, C1. */
  readonly hole: string;
  /** Exact place, table axes as seen from side B, mm. */
  readonly x: number;
  readonly y: number;
  /**
   * The place as set on the machine with the row's side uppermost (x turned about for side A), rounded to the step, mm.
   */
  readonly set: Point;
  /**
   * Where to turn before coming to the hole, as set; null where the straight way already comes from the right sides.
   */
  readonly via: Point | null;
  readonly tool: string;
  readonly toolDiameter: number;
  readonly op: Operation;
  /**
   * To the tool's point (spot, pilot, drill) or shoulder or end (all others), mm below the flat of the side it is cut
   * from.
   */
  readonly depth: number;
  readonly side: Side;
  /** Which of two settings of this side it is cut in; left out: there is one. */
  readonly setting?: 1 | 2;
  /**
   * rev/min and mm/min; null where the material is not known, or where the speed is for the person to find (boring
   * head, file).
   */
  readonly speed: number | null;
  readonly feed: number | null;
  readonly note: string | null;
  /** Least and greatest size that the cut leaves, mm (a slot: its width); null where a drill makes what it makes. */
  readonly limits: Limits | null;
  /** Least and greatest depth (of a raised spigot: height) that it leaves, mm; null where it does not matter. */
  readonly depthLimits: Limits | null;
  /** Cuts that a boring head takes, a light one last; null for other tools. */
  readonly passes: number | null;
  /** About how long the tool is, mm. */
  readonly toolLength: number;
}

/** The plate lying with one side uppermost. */
export interface Setup {
  readonly side: Side;
  /** Which of two, where the table does not travel over all the cuts of this side; left out: they are cut in one. */
  readonly setting?: 1 | 2;
  readonly says: string;
}

/** A distance to check the drilled plate by, mm: one of the readings that `prove` asks for. */
export interface CheckDistance extends PlannedReading {
  readonly between: readonly [string, string];
  readonly centres: number;
  /** Over the far sides of pins that fill both holes, or jaws to the far walls. */
  readonly overPins: number;
  /** Metal between the near walls; below zero where one lies over or inside the other. */
  readonly gap: number;
}

/** One coordinate on a handwheel: whole turns and divisions of its dial from zero, both with the sign of the move. */
export interface DialSetting {
  readonly turns: number;
  readonly divisions: number;
  /** What a dial that counts up shows there: on the way back it counts down from its last division. */
  readonly dial: number;
  /** What the nearest division leaves, mm: place asked for less place set. */
  readonly error: number;
}

/** One hole on the handwheels: its side, and both coordinates as turns and divisions. */
export interface HandwheelRow {
  readonly hole: string;
  readonly side: 'A' | 'B';
  readonly x: DialSetting;
  readonly y: DialSetting;
}

/** Every place by the handwheels. */
export interface Handwheel {
  /** mm a turn and mm a division. */
  readonly pitch: number;
  readonly division: number;
  readonly rows: readonly HandwheelRow[];
  /** Greatest place error from whole divisions, mm. */
  readonly worst: number;
}

/** Least and greatest size, mm. */
export type Limits = readonly [least: number, most: number];

/**
 * The blank that the plate is cut from, sides along the table's axes as seen from side B, its lower left corner in
 * those axes, mm: zero lies
 * `-left` from its left edge and `-bottom` from its lower edge.
 */
export interface Blank {
  readonly left: number;
  readonly bottom: number;
  readonly width: number;
  readonly height: number;
  readonly from: 'job' | 'outline';
  /** Least metal between the outline and an edge of the blank, mm. */
  readonly allowance: number;
  /** The finished outline's own extent, mm. */
  readonly finished: { readonly width: number; readonly height: number };
}

/** Metal as it is bought, and how it comes to the plate's thickness. */
export interface Stock {
  /** `3/4 in`, `20 mm`; null where none that is sold is thick enough. */
  readonly name: string | null;
  /** It is the blank of the job; left out: it is to be bought. */
  readonly own?: true;
  readonly thickness: number;
  /**
   * What is faced off, mm, from the side that is cut first, down to the top of what is raised; 0 where it serves as
   * bought.
   */
  readonly faced: number;
  readonly side: Side;
  /** Finished thickness, mm. */
  readonly finished: number;
  /** Least and greatest thickness that the stack bears, mm; null where the thickness does not come from it. */
  readonly window: Limits | null;
}

/** How far the nearest cut stays from a clamp or jaw, mm; below zero it is cut. */
export interface ClampGap {
  readonly clamp: number;
  readonly hole: string;
  readonly op: Operation;
  readonly gap: number;
  readonly ok: boolean;
}

/** The table, or why there is none, a sentence a fault. */
export type TableMade =
  | { readonly ok: true; readonly table: MachinistTable }
  | { readonly ok: false; readonly faults: readonly string[] };

/** What may be asked of a table. */
export interface TableOptions {
  /**
   * A face (`pump`), a feature (`pump.P1`), a hole or bore (`H3`, `C1`), `lower left corner` (or another corner) or
   * `middle H1 H4`; null: the first face's centre.
   */
  readonly origin?: string | null;
  /** Two places: the line from the first to the second runs along +x. */
  readonly horizontal?: readonly [string, string] | null;
  readonly unit?: LengthUnit | null;
  /** Come to every hole from the sides that the machine's `backlash` states. */
  readonly oneSided?: boolean;
}

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
