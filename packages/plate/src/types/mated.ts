import type { Motion, Point } from '@fayplate/core';
import type { Length, MovedLength } from '@fayplate/job';
import type { Pattern } from '@fayplate/survey';
import type { Side } from '../assemble/types.js';
import type { ShaftAxis } from './alignment.js';

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
