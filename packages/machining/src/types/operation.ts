import type { Point } from '@fayplate/core';
import type { Side } from '@fayplate/plate';

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

/** Least and greatest size, mm. */
export type Limits = readonly [least: number, most: number];
