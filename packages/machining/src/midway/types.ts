import type { Point } from '@fayplate/core';
import type { MatedFace, Plate } from '@fayplate/plate';

/** How a plate that went wrong midway can still be made. */
export type WayKind = 'go on' | 're-plan' | 'turn' | 'turn over' | 'open' | 'bush' | 'plug' | 'scrap';

/** Work on a hole that is drilled already. */
export interface HoleWork {
  /** The plate's own name of it. */
  readonly hole: string;
  /** `to size`: drilled out to what the drawing has; `leave`: it serves nothing any more. */
  readonly what: 'file' | 'to size' | 'drill out' | 'bush' | 'plug' | 'leave';
  /** How far it is filed, or how far off it lies, mm. */
  readonly by: number;
  /** Which way, radians counter-clockwise from +x, seen from side B. */
  readonly towards: number;
  /**
   * The size that it gets, mm: drilled out, outside of the bush, thread of the plug; of one that is filed or left, its
   * own.
   */
  readonly diameter: number;
  /** The plug's thread by name; null for all others. */
  readonly thread: string | null;
}

/** One way to go on, tried on the whole plate with all checks. */
export interface Way {
  readonly kind: WayKind;
  readonly works: readonly HoleWork[];
  /** Hole as it was drilled → the hole of the drawing that it serves now, where that is another. */
  readonly serves: ReadonlyMap<string, string>;
  /**
   * How far the plate is turned on the parts, or the second part on the plate, radians clockwise seen from side B; 0
   * where neither is.
   */
  readonly turn: number;
  /** The part that is turned; null: the plate, on both. */
  readonly turns: string | null;
  /**
   * How far the rest of the holes come to lie from where the drawing puts them against those that are drilled, the
   * farthest, mm.
   */
  readonly moved: number;
  /** Whether every check holds that holds as drawn, and the plate goes on both parts 95 times in 100 or more. */
  readonly holds: boolean;
  /** What fails, in words; empty where it holds. */
  readonly fails: readonly string[];
  readonly goesOn: ReadonlyMap<string, { readonly probability: number; readonly slack: number }>;
  /** Least metal between what is worked on and its neighbours, mm; null where nothing is. */
  readonly metalLeft: number | null;
  /** Holes and bores that are still to be cut. */
  readonly left: readonly string[];
  /** The plate as it will be, what is drilled marked `done`; null for scrap. */
  readonly made: { readonly plate: Plate; readonly mated: readonly [MatedFace, MatedFace] } | null;
}

/** A hole that is not where, or not what, it should be. */
export interface WrongHole {
  readonly id: string;
  /** From where it should be to where it is, mm, plate frame; the rest of the drilled pattern laid on the drawing. */
  readonly off: Point;
  readonly why: 'place' | 'size';
}

/** Where a plate stands midway, and how to go on, best first. */
export interface Midway {
  /** Holes and bores that are drilled, and those that are not. */
  readonly drilled: readonly string[];
  readonly left: readonly string[];
  readonly wrong: readonly WrongHole[];
  readonly ways: readonly Way[];
  /** What was not looked at to the end, for there was too much of it; null: everything was. */
  readonly stopped: 'turns' | null;
}
