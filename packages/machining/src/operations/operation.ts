import type { Point } from '@fayplate/core';
import type { Side } from '@fayplate/plate';
import type { Operation } from '../types.js';

/** One cut of one hole, before it is placed, grouped and numbered; place in the plate frame, mm. */
export interface Cut {
  readonly hole: string;
  readonly at: Point;
  readonly op: Operation;
  readonly tool: string;
  readonly toolDiameter: number;
  /** mm below the flat of the side it is cut from: to the point for spot, pilot and drill, to the shoulder or end for others. */
  readonly depth: number;
  readonly side: Side;
  /** Thread pitch for a tap, mm. */
  readonly pitch: number | null;
  readonly note: string | null;
}

/** The order in which a shop takes them; within one, the smaller tool first. A raised spigot is turned or milled first, for it makes the flat that every depth is measured from. */
export const shopOrder: readonly Operation[] = ['turn', 'spot', 'pilot', 'drill', 'mill', 'bore', 'ream', 'counterbore', 'spotface', 'countersink', 'tap', 'chamfer'];

/** One centre drill spots every hole: BS 328 No. 3, body 1/4 in (from memory), entered far enough for its cone to lead a drill. */
export const SPOT = { op: 'spot', tool: 'centre drill 3', toolDiameter: 6.35, depth: 2 } as const;

/** Cuts that a person makes at the place, by a boring head, an end mill or a rotary table: neither speed nor depth of one plunge describes them. */
export const byHand: ReadonlySet<Operation> = new Set(['turn', 'bore', 'mill']);
