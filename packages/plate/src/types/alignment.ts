import type { Point } from '@fayplate/core';
import type { Joint } from './goes-on.js';

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
