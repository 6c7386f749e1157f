import type { Assembly, PartOperation, Side } from './assemble/types.js';
import type { Clockwise, Motion, Path, Point, Requirement } from '@fayplate/core';
import type { Fit, Length, MovedLength, PieceJoint, WorkKind } from '@fayplate/job';
import type { Pattern } from '@fayplate/survey';

export type * from './assemble/types.js';

/**
 * The plate in its own frame: seen from side B, looking at the first face; origin the first face's origin,
 * x right, y up, mm; angles radians counter-clockwise. z runs from side A (0) to side B (thickness).
 * The first face lies on side A, the second on side B.
 */
export interface Plate {
  readonly faces: readonly [string, string];
  readonly thickness: number;
  /** What the job says that the shop may leave of it either way, mm; left out: it does not say. */
  readonly thicknessWithin?: number;
  readonly material: { readonly name: string; readonly density: number } | null;
  /** Radians clockwise, as drawn. */
  readonly clocking: Clockwise;
  readonly holes: readonly PlateHole[];
  readonly bores: readonly PlateBore[];
  readonly outline: Outline;
  /** Which centres of each face are cut. */
  readonly centres: readonly CutCentres[];
  readonly checks: readonly Check[];
  /** Bolts and screws to buy, where the job gives what their length depends on. */
  readonly bolts: readonly BoltLength[];
  readonly goesOn: ReadonlyMap<string, GoesOn>;
  /** Radians clockwise: where every check that turning can put right holds; null where no search was asked. */
  readonly clockings: readonly AngleSpan[] | null;
  /** What turning changes; always there. */
  readonly turning: Turning;
  readonly alignment: Alignment | null;
  readonly assembly: Assembly;
  /** It is one of two pieces; left out: it is whole. */
  readonly joint?: PieceJoint;
  /** Work on the parts themselves; left out: none. */
  readonly work?: readonly PartOperation[];
  /** What could not be checked, and what to write in the job so that it can; plain sentences. */
  readonly unknowns: readonly string[];
  /** What the plate has to fulfil, and what is not known of it: every check and every unknown. */
  readonly requirements: readonly Requirement[];
  /** Whether every check holds; what is not known has no say in it. */
  readonly ok: boolean;
}

/** Which centres of a face the plate has. */
export interface CutCentres {
  readonly face: string;
  /**
   * `laid out`: where its layout puts them; `measured`: where the readings do; `drawn`: where the other piece of two
   * has them.
   */
  readonly from: 'measured' | 'laid out' | 'drawn';
  /** Greatest distance between the two, mm; null where no layout is known. */
  readonly differs: number | null;
  /** Odds of the layout where the job does not say which of the two is meant; null else. */
  readonly undecided: number | null;
}

/** One feature of one part, by the names that the job gives them. */
export interface PartFeature {
  readonly face: string;
  readonly feature: string;
}

/** A hole of the plate; mm, plate frame. */
export interface PlateHole {
  /** It is drilled already: drawn, but neither punched nor in the table of what is left to do. */
  readonly done?: true;
  /** H1, H2, … in the order of the job. */
  readonly id: string;
  /** `pump.P1`, the name of `part`; null for a hole that the plate alone has. */
  readonly feature: string | null;
  /** The feature of a part that it is for; null for a hole that the plate alone has. */
  readonly part: PartFeature | null;
  readonly x: number;
  readonly y: number;
  readonly as: 'clearance' | 'tapped' | 'set stud' | 'dowel' | 'slot' | 'jacking' | 'lifting' | 'cut';
  /** Of a cut that fastens nothing: its name in the job, the face that it lies by, why it is there. */
  readonly cut?: CutFor;
  /** Finished cylinder, mm: the clearance hole, the tap drill, the reamed dowel hole, a slot's width. */
  readonly diameter: number;
  /** Least and greatest finished diameter, mm; null where no table gives it (a drilled tapping hole). */
  readonly limits: readonly [number, number] | null;
  /** Side from which it is drilled; a through hole may be drilled from either. */
  readonly from: Side;
  /** Full-diameter depth, mm, from the surface of side `from`; null: through. */
  readonly depth: number | null;
  /** `depth`: of full thread, mm; null: through. */
  readonly thread: {
    readonly name: string;
    readonly major: number;
    readonly pitch: number;
    readonly depth: number | null;
  } | null;
  /**
   * How long its wire thread insert is, mm; left out: it has none. `thread` is then the larger one that is tapped for
   * it, by the bolt's name.
   */
  readonly insert?: number;
  readonly sink: Sink | null;
  /** A slot's length between its end centres, mm, and direction, radians; null where round. */
  readonly slot: { readonly length: number; readonly angle: number } | null;
  /** What passes through it or screws into it; null for a hole of the plate alone. */
  readonly fastening: Fastening | null;
  /** Largest diameter of the fastener that passes, mm (F of ASME Y14.5); null where none does. */
  readonly fastener: number | null;
  /** The drill's name in the trade where one makes it: `13/32`, `10.3 mm`, `F`. */
  readonly drill: string | null;
  /** Published source of the size. */
  readonly source: string;
  /**
   * z of both ends of the metal it goes through, mm: 0 and the thickness, less where it starts in a register or pocket.
   */
  readonly land: readonly [number, number];
}

/**
 * How long the bolts or screws of some holes may be under the head, mm: least for their engagement, most before they
 * bottom.
 */
export interface BoltLength {
  readonly holes: readonly string[];
  readonly thread: string;
  readonly least: number;
  readonly most: number;
  /** The shortest length that is stocked within that; null where none is. */
  readonly stock: number | null;
}

/** The counterbore, countersink or spotface of a hole; mm. */
export interface Sink {
  readonly kind: 'counterbored' | 'spotfaced' | 'countersunk';
  readonly diameter: number;
  /** mm below the surface of `side`; of a countersink the depth of its cone. */
  readonly depth: number;
  readonly side: Side;
}

/** The fastener of one hole: nominal size and what sits on it. */
export interface Fastening {
  /**
   * `stud`: stands out of the part; `screw`: passes the plate into the part; `bolt`: passes the part into or through
   * the plate; `set stud`: set in the plate; `dowel`.
   */
  readonly kind: 'stud' | 'screw' | 'bolt' | 'set stud' | 'dowel';
  readonly thread: string | null;
  /** mm, of the thread or the plain pin. */
  readonly nominal: number;
  /** Its largest diameter, mm; null where not known. */
  readonly largest: number | null;
  /** Nut or head on the plate, mm; null where it sits on the part. */
  readonly head: FastenerHead | null;
}

/** The head or the nut of a fastener; mm. */
export interface FastenerHead {
  readonly kind: 'nut' | 'cap screw' | 'countersunk screw';
  readonly side: Side;
  /** Largest diameter about the axis: nut over its corners, washer, or head. */
  readonly diameter: number;
  /** The washer under it, mm; left out where there is none. */
  readonly washer?: { readonly outside: number; readonly thickness: number };
  /** Nut and washer, or head. */
  readonly height: number;
  /** Diameter that a socket (or key) needs to turn it. */
  readonly socket: number;
  /** How far its top stands above the surface of `side`; negative: below it. A stud's own end is not counted. */
  readonly proud: number;
}

/** Which of the job's own cuts it is. */
export interface CutFor {
  readonly name: string;
  readonly face: string;
  readonly why: string | null;
}

/** Straight sides with round corners, mm; `angle`: which way its length runs, radians. */
export interface BoreBox {
  readonly length: number;
  readonly width: number;
  readonly corner: number;
  readonly angle: number;
  /**
   * How far it reaches back from its place, against `angle`: half its length; of a notch, which opens forward over the
   * edge, half its width.
   */
  readonly behind: number;
  /** It runs out over the edge of the plate. One that goes through is part of the outline. */
  readonly notch?: true;
}

/** A register, a bore, a relief or a cut of the plate; mm, plate frame. */
export interface PlateBore {
  /** It is cut already. */
  readonly done?: true;
  readonly cut?: CutFor;
  /** C1, C2, … */
  readonly id: string;
  /** central bore, recess for a spigot, raised spigot for a bore, relief pocket for a boss. */
  readonly kind: 'bore' | 'recess' | 'spigot' | 'relief';
  /** `motor.spigot`, the name of `part`; null for a bore that the plate alone has. */
  readonly feature: string | null;
  readonly part: PartFeature | null;
  readonly x: number;
  readonly y: number;
  /** Of one with straight sides the widest circle that lies in it. */
  readonly diameter: number;
  /** Of a pocket with straight sides or a notch; left out: it is round. */
  readonly box?: BoreBox;
  readonly limits: readonly [number, number] | null;
  /** 'through' or the side it is cut from (a spigot rises from). */
  readonly side: Side | 'through';
  /** mm; null for through. */
  readonly depth: number | null;
}

/** The edge of the plate; mm. */
export interface Outline {
  readonly shape: 'follow' | 'round' | 'rectangle' | 'like';
  readonly path: Path;
  /** As it is before notches are cut through it; left out: none is. */
  readonly whole?: Path;
  /** mm², of the outline alone. */
  readonly area: number;
  /** kg, cuts taken off; null without a material. */
  readonly mass: number | null;
  /**
   * What its fitted stretches rest on, for an outline that copies a rim: places touched, and how far the farthest lies
   * off, mm.
   */
  readonly rests?: readonly { readonly along: 'arc' | 'line'; readonly points: number; readonly departure: number }[];
  /** Smallest blank that holds it, mm; `thickness`: of the plate and what is raised on both its sides. */
  readonly blank: { readonly width: number; readonly height: number; readonly thickness: number };
}

/** From–to, radians clockwise as in the job file; both ends belong to it. */
export interface AngleSpan {
  readonly from: Clockwise;
  readonly to: Clockwise;
}

/** What turning the second face does, over the range that was asked or the whole turn. */
export interface Turning {
  readonly range: AngleSpan;
  /** Where every check that turning can change holds. */
  readonly spans: readonly AngleSpan[];
  /**
   * The angle with the widest margin over the limits, and that margin, mm (negative: no angle holds); null where
   * turning changes nothing.
   */
  readonly best: { readonly angle: number; readonly margin: number } | null;
  /**
   * For a plot: the smallest web between a cut that turns and one that does not, and the least such web over its own
   * limit, mm, at each angle.
   */
  readonly plot: readonly { readonly angle: number; readonly web: number; readonly margin: number }[];
}

/** A check by the name that code and JSON know it by; `checks/all.ts` has the record of each. */
export type CheckId =
  | 'web-between-cuts'
  | 'hole-to-raised-spigot'
  | 'raised-spigot-wall'
  | 'hole-to-edge'
  | 'metal-to-edge'
  | 'counterbore-floor'
  | 'countersink-floor'
  | 'drill-point-floor'
  | 'recess-floor'
  | 'floor-between-cuts'
  | 'nut-under-part'
  | 'cap-screw-under-part'
  | 'socket-room'
  | 'head-seat'
  | 'assembly-order'
  | 'stud-length'
  | 'stud-end'
  | 'dowel-end'
  | 'stud-lean'
  | 'plate-thread'
  | 'bolt-end-room'
  | 'bolt-passes-part'
  | 'part-thread'
  | 'clear-beside'
  | 'clear-above'
  | 'standing-under-part'
  | 'bore-passes-shaft'
  | 'register-fit'
  | 'register-depth'
  | 'register-entry'
  | 'register-wall'
  | 'dowel-count'
  | 'dowels-fight'
  | 'jacking-on-metal'
  | 'set-room'
  | 'goes-on'
  | 'shaft-offset'
  | 'shaft-direction'
  | 'shaft-tilt';

/** One check of the plate with its value and its limit, in `unit`. */
export interface Check {
  readonly id: CheckId;
  /** Its title, for people. */
  readonly rule: string;
  /** Hole and bore ids, feature names (`pump.B1`), or `outline`. */
  readonly of: readonly string[];
  readonly value: number;
  readonly limit: number;
  /** 'mm' unless said: '1' is a count, 'd' diameters, 'deg' degrees, '%' a chance in 100. */
  readonly unit: 'mm' | '1' | 'd' | 'deg' | '%';
  /** Value must be at least the limit, or at most. */
  readonly sense: 'least' | 'most';
  readonly ok: boolean;
  readonly source: string;
  /** What would put it right, best first; empty where it holds. */
  readonly cures: readonly Cure[];
  /** Where to mark it in a picture, plate frame: the thinnest metal of a web; null where it has no one place. */
  readonly at: Point | null;
  /** How high above side A that place lies, mm; left out where no depth is its own. */
  readonly level?: number;
}

/**
 * One value written into the job file: where, and a length in mm, words of the file, or a list of names; '' takes it
 * out.
 */
export interface JobEdit {
  readonly at: readonly string[];
  readonly to: number | string | readonly string[];
}

/** One change to the job. */
export type Step =
  | { readonly kind: 'turn'; /** From the present clocking. */ readonly by: Clockwise }
  | { readonly kind: 'thickness'; readonly to: number }
  | { readonly kind: 'thread'; readonly face: string; readonly thread: string }
  | { readonly kind: 'fit'; readonly face: string; readonly fit: Fit }
  | { readonly kind: 'margin'; readonly to: number }
  | {
      readonly kind: 'treatment';
      readonly face: string;
      readonly says: string;
      /** Work on the part that does it: an entry of the job's `work`; left out: it is none. Lengths mm. */
      readonly work?: { readonly kind: WorkKind; readonly features: readonly string[]; readonly to: number };
      /** What does it in the job file; left out where it is work on a part, or advice. */
      readonly edits?: readonly JobEdit[];
      /** How the job file has it, where `says` does not tell. */ readonly written?: string;
    };

/**
 * A change, or several made together, that has been tried and does put its check right (and breaks no other where it
 * says `clean`).
 */
export type Cure = { readonly clean: boolean } & (
  | Step
  | { readonly kind: 'together'; readonly steps: readonly Step[] }
);

/** Whether the plate goes on one part; lengths in mm, chances 0 to 1. */
export interface GoesOn {
  readonly probability: number;
  /** Of the probability; above zero even where every trial went on or none did. */
  readonly standardError: number;
  /** Holds the true probability 95 times in 100 (Wilson's interval). */
  readonly between: readonly [number, number];
  readonly trials: number;
  /** Feature that stops it most often; null where none ever does. */
  readonly worst: string | null;
  /** Feature → its share of the blame over all trials that failed; the shares add up to 1. */
  readonly stops: ReadonlyMap<string, number>;
  /** With everything at its nominal and every hole at its least. */
  readonly nominal: BestFit;
  /**
   * What every fastener's hole would have to be larger by, on the diameter, for 99.7 %, mm; 0 where it is reached, null
   * where none is enough.
   */
  readonly ease: number | null;
  /** Smallest of the fits offered that reaches 99.7 %; null where the stated one does or none can. */
  readonly proposal: string | null;
}

/** What must meet for one face to go on. */
export interface GoesOnSpec {
  readonly joints: readonly Joint[];
  /**
   * 2n × 2n, mm², in the order of `joints`, rows x₁ y₁ x₂ y₂ …: of the part's places less the plate's, the making of
   * the holes left out.
   */
  readonly covariance: readonly (readonly number[])[];
}

/** One pin and the hole that it must enter: a fastener in its clearance hole, a dowel, or a spigot in its register. */
export interface Joint {
  /** The part's feature. */
  readonly id: string;
  readonly role: 'fastener' | 'locator';
  /** Where the plate and the part have it, both in the plate's frame, mm. */
  readonly plate: Point;
  readonly part: Point;
  /**
   * Radial room, least and most, mm: half of hole less pin, the pin at its largest; where a bolt passes two loose
   * holes, the room of both together. A locator that is tight (below zero) locates exactly.
   */
  readonly clearance: readonly [number, number];
  /** Direction of a slot, radians, along which the pin is free; null: a round hole. */
  readonly along: number | null;
  /** ± of the plate's hole in x and in y (k = 2), mm; 0 for what the others are measured from. */
  readonly made: number;
}

/** The plate laid on the part as well as it can be, the locators kept. */
export interface BestFit {
  /** Smallest radial clearance left at any fastener, mm; below zero it does not go on. */
  readonly slack: number;
  /** The plate's motion from its nominal place: a turn about the frame's origin, radians, then a shift, mm. */
  readonly turn: number;
  readonly shift: Point;
  /** Features that hold it, those that bear most first. */
  readonly tight: readonly string[];
}

/** How far out of line the two shafts may come, from what locates the parts on the plate and from the plate itself. */
export interface Alignment {
  /** Radial, between the axes at the plate, mm. */
  readonly offset: Misalignment;
  /** Between the axes, radians. */
  readonly tilt: Misalignment;
  /** ± of the centre of a layout's circle where a shaft runs, mm; left out: none does. */
  readonly circles?: readonly { readonly face: string; readonly plusMinus: number }[];
  /** Every surface that adds to either, the worst first. */
  readonly sources: readonly AlignmentSource[];
  /** What no reading tells, and how it is found out; plain sentences. */
  readonly unknowns: readonly string[];
  /**
   * Whether either face names a shaft or a centre, or the job says what the coupling bears: else nothing here is known
   * to turn.
   */
  readonly turns: boolean;
}

/** How far two shafts are apart, mm, or out of parallel, radians. */
export interface Misalignment {
  /** With every size and place as drawn. */
  readonly nominal: number;
  /** Every play and ± at its end and all the same way; null where nothing is known of it. */
  readonly worst: number | null;
  /** Not exceeded 95 times in 100. */
  readonly p95: number | null;
  /** What the coupling bears; null where not given. */
  readonly limit: number | null;
  /** At the worst; null where there is no limit or nothing is known. */
  readonly ok: boolean | null;
}

/** One thing that sets the two shafts apart or askew, and by how much at worst; mm or radians. */
export interface AlignmentSource {
  readonly what: 'offset' | 'tilt';
  /** Null for the plate itself. */
  readonly face: string | null;
  /** The surface that makes it: `play of pump.spigot in its register`. */
  readonly says: string;
  /** mm or radians. */
  readonly worst: number;
}

/** What is needed for `alignShafts`: where each shaft is, what locates its part, and how true the plate is. */
export interface AlignmentSpec {
  readonly faces: readonly [LocatedShaft, LocatedShaft];
  /** ± of the plate's thickness over its face, mm; null where not known. */
  readonly parallel: number | null;
  /** Width of that face, mm. */
  readonly over: number;
  /** ± of how the axis is picked up again for the plate's second side, mm. */
  readonly secondSetting: number;
  /** Where the second shaft is wanted from the first, mm; left out: in line. */
  readonly apart?: Point;
  readonly limits: { readonly offset: number | null; readonly tilt: number | null };
}

/** Where the shaft of a face comes to run. */
export interface LocatedShaft {
  readonly face: string;
  /** The shaft's place in the plate's frame, mm. */
  readonly shaft: Point;
  /** The feature that stands for the shaft; null where the face names none and its origin is taken. */
  readonly feature: string | null;
  /**
   * `register`: the first locator, a round joint; `dowels`: the first two locators; `set at assembly`: moved until true
   * and then dowelled; `fasteners`: nothing but the play of the bolts.
   */
  readonly by: 'register' | 'dowels' | 'set at assembly' | 'fasteners';
  /** How it leans from square to its face, as a dial on the face told; left out: nobody read it. */
  readonly leans?: readonly ShaftLean[];
  /** Set by indicator: how far off it may stay, mm; left out: nothing is said of it. */
  readonly setTo?: number;
  /** Whether a dial told how the register runs to the shaft. */
  readonly ranOut?: boolean;
  /**
   * It runs at the centre of a circle that nothing marks: ± of that, mm; null: in that of the features; left out: it
   * does not.
   */
  readonly circle?: number | null;
  readonly joints: readonly Joint[];
  /** Of the joints' places on the part and, last, of the shaft's: 2(n + 1) square, mm². */
  readonly covariance: readonly (readonly number[])[];
}

/** A shaft that is not square to its face, by a face run-out, radians. */
export interface ShaftLean {
  readonly face: string;
  /** Which way it leans out of its face, plate frame, as long as it leans; null: not read. */
  readonly toward: Point | null;
  readonly by: number;
  /** ± of it, with what the ± of its direction makes. */
  readonly plusMinus: number;
}

/** Where a face's shaft runs, mm, and what says so. */
export interface ShaftAxis {
  readonly at: Point;
  /** `shaft`: the feature that the face names; `centre`: its centre; `circle`: the circle of its layout. */
  readonly by: 'shaft' | 'centre' | 'circle';
  /** The feature whose centre it is; null where it is a circle's. */
  readonly feature: string | null;
  /** Of a circle's centre: how well it is known, 2 × 2, mm²; left out where the features' own ± tells. */
  readonly covariance?: readonly (readonly number[])[];
}

/** Both patterns in the plate's frame, in the order of the job. */
export interface MatedFace {
  readonly face: string;
  readonly pattern: Pattern;
  readonly side: Side;
  /** Where the face's own centre feature (or origin) lies, plate frame. */
  readonly centre: Point;
  /** Where its shaft runs, plate frame; null where nothing says it. */
  readonly axis: ShaftAxis | null;
  /** From the face's frame (as viewed) into the plate's. */
  readonly motion: Motion;
  /** Feature → standard uncertainty of its radius, mm; none for one that is exact or not known. */
  readonly radiusSigmas: ReadonlyMap<string, number>;
}

/**
 * A place as drawn from side B, and along the shaft from the first part's face toward the second; mm, each with its ±.
 */
export interface InSpace {
  readonly x: number;
  readonly y: number;
  readonly z: number;
  readonly within: { readonly x: number; readonly y: number; readonly z: number };
}

/** A place of a part on the new plate, and where it was. */
export interface Moved {
  readonly face: string;
  readonly place: string;
  readonly is: InSpace;
  /** Null: not said. */
  readonly was: InSpace | null;
  /** Of the part that stays. */
  readonly stays: boolean;
  /** ± that every place of the part shares, across and along the shaft, mm. */
  readonly common: Readonly<Record<'is' | 'was', { readonly plane: number; readonly along: number }>>;
}

/** A length from place to place as it comes to be, and as it was; mm. */
export interface MovedSpan extends MovedLength {
  readonly is: Length;
  readonly was: Length | null;
}

/** What else moves with the part. */
export interface Moves {
  readonly places: readonly Moved[];
  readonly spans: readonly MovedSpan[];
}

/** The solved chain; mm. */
export interface StackResult {
  readonly unknown: string;
  /** Window for the unknown and its shims together, mm; null where the limits cannot all be met. */
  readonly worst: { readonly from: number; readonly to: number } | null;
  readonly statistical: { readonly from: number; readonly to: number; readonly coverage: number } | null;
  /** The unknown alone, without shims. */
  readonly chosen: number | null;
  readonly shims: readonly number[];
  /** A second thickness on hand that lies with the plate, mm; null: none. */
  readonly spacer: number | null;
  /** chosen + spacer + shims. */
  readonly total: number | null;
  /** What `limits` are told at: `total`; where nothing could be chosen, the value that misses them least, mm. */
  readonly at: number;
  readonly limits: readonly StackCheck[];
  /** Which link's ± costs most: by how much each window would widen were that link exact, mm; dearest first. */
  readonly costs: readonly {
    readonly link: string;
    readonly plusMinus: number;
    readonly worst: number;
    readonly statistical: number;
  }[];
  /** Null where the worst-case window is open. */
  readonly conflict: StackConflict | null;
  readonly ok: boolean;
}

/** The two limits that leave no room between them; one limit twice where its own two ends do. */
export interface StackConflict {
  readonly between: readonly [StackBound, StackBound];
  /** How far apart they are, mm. */
  readonly by: number;
  /** Whether they would still conflict with every link at its nominal. */
  readonly evenWhenExact: boolean;
}

/** One end of what the limits leave the unknown link; mm. */
export interface StackBound {
  /** A limit's name; null: the range that the unknown was looked for in. */
  readonly limit: string | null;
  readonly end: 'least' | 'most';
  /**
   * What the unknown must not fall below (`from`) or go over (`to`), mm; null where the unknown has no say in the
   * limit.
   */
  readonly asks: 'from' | 'to' | null;
  readonly at: number | null;
}

/** One limit of the chain with the unknown as chosen; mm. */
export interface StackCheck {
  readonly name: string;
  readonly nominal: number;
  readonly worst: readonly [number, number];
  readonly statistical: readonly [number, number];
  readonly least: number | null;
  readonly most: number | null;
  /** At the worst. */
  readonly ok: boolean;
}
