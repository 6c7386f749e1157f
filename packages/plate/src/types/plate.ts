import type { Clockwise, Path, Requirement } from '@fayplate/core';
import type { PieceJoint } from '@fayplate/job';
import type { Assembly, PartOperation } from '../assemble/types.js';
import type { Alignment } from './alignment.js';
import type { PlateBore } from './bore.js';
import type { AngleSpan, Check, Turning } from './check.js';
import type { GoesOn } from './goes-on.js';
import type { BoltLength, PlateHole } from './hole.js';

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
