import type { Measure, Point } from '@fayplate/core';

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
