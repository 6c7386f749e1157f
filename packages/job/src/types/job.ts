import type { LengthUnit } from '@fayplate/core';
import type { AssembledReading, DrilledSizes, TrialSpec } from './drilled.js';
import type { Face, MovedLength } from './face.js';
import type { Fault } from './fault.js';
import type { GasketSpec, PlateSpec } from './plate.js';
import type { Instrument } from './reading.js';
import type { DrawingSpec, MachineSpec, PartWork, PrintSpec } from './shop.js';
import type { OldPlate, StackSpec } from './stack.js';

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
  /** The title block of the workshop drawing; left out or null: not given. */
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

/** A job with its warnings, or every fault of the file. */
export type JobRead =
  | { readonly ok: true; readonly job: Job; readonly warnings: readonly Fault[] }
  | { readonly ok: false; readonly faults: readonly Fault[] };
