import type { Box, LengthUnit, Motion } from '@fayplate/core';
import type { CutCentres, PartOperation, Side } from '@fayplate/plate';
import type { Dividing } from '../byhand/dividing.js';
import type { Rotary } from '../byhand/rotary.js';
import type { Route } from '../byhand/routes.js';
import type { PlannedReading, ReadingPlan } from '../prove/plan.js';
import type { Approach } from '../travel/order.js';
import type { Handwheel } from './by-hand.js';
import type { ContourMade } from './contour.js';
import type { TableRow } from './operation.js';
import type { Blank, ClampGap, Stock } from './stock.js';

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
