import type { LengthUnit, Point } from '@fayplate/core';

/** The machinist's table; lengths mm in the table's own axes (origin and line made horizontal as stated). */
export interface MachinistTable {
  /** `pump.spigot`, `H3`, `corner of the blank`, … */
  readonly origin: string;
  readonly axes: string;
  readonly unit: LengthUnit;
  readonly rows: readonly TableRow[];
  readonly checks: readonly CheckDistance[];
  readonly travel: { readonly tableOrder: number; readonly asListed: number };
  /** Greatest place error that rounding to the machine's step causes, mm. */
  readonly rounding: number;
}

export type Operation = 'spot' | 'pilot' | 'drill' | 'bore' | 'ream' | 'counterbore' | 'spotface' | 'countersink' | 'tap' | 'chamfer';

export interface TableRow {
  readonly n: number;
  readonly hole: string;
  readonly x: number;
  readonly y: number;
  readonly tool: string;
  readonly toolDiameter: number;
  readonly op: Operation;
  /** To the tool's point or shoulder as the op means, mm below the side it is cut from. */
  readonly depth: number;
  readonly side: 'A' | 'B';
  /** rev/min and mm/min; null where the material is not known. */
  readonly speed: number | null;
  readonly feed: number | null;
}

export interface CheckDistance {
  readonly between: readonly [string, string];
  readonly centres: number;
  readonly overPins: number;
  readonly gap: number;
}

export interface Proof {
  readonly holes: readonly ProvedHole[];
  readonly goesOn: ReadonlyMap<string, ProvedFace>;
  /** Null where the readings cannot tell; else in words (`drilled as its mirror image`). */
  readonly mistake: string | null;
  readonly ok: boolean;
}

export interface ProvedHole {
  readonly id: string;
  readonly dx: number;
  readonly dy: number;
  readonly position: number;
  readonly allowed: number | null;
  readonly ok: boolean;
}

export interface ProvedFace {
  readonly probability: number;
  readonly standardError: number;
  readonly slack: number;
  readonly shift: Point;
  /** radians. */
  readonly turn: number;
}
