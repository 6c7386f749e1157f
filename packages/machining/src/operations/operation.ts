import type { Point } from '@fayplate/core';
import type { Side } from '@fayplate/plate';
import type { Operation } from '../types.js';
import type { Ends } from './depth.js';

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
export const shopOrder: readonly Operation[] = [
  'turn',
  'spot',
  'pilot',
  'drill',
  'mill',
  'bore',
  'ream',
  'counterbore',
  'spotface',
  'countersink',
  'chamfer',
  'tap',
];

/** One centre drill spots every hole: No. 3, body 1/4 in, pilot about 2.8 mm long (from memory), entered until its cone leads a drill. */
const SPOT = { op: 'spot', tool: 'centre drill 3', toolDiameter: 6.35, depth: 3.5 } as const;

/** A recess is not bored yet when its holes are spotted; on a raised spigot they start that much higher. */
export const spotAt = (
  { mouth }: Ends,
  note: string | null,
): Pick<Cut, 'op' | 'tool' | 'toolDiameter' | 'depth' | 'note'> =>
  mouth < 0
    ? { ...SPOT, depth: SPOT.depth + mouth, note: note ?? 'on the raised spigot, above the flat' }
    : { ...SPOT, note };

/** Cuts that a person makes at the place, by a boring head, an end mill or a rotary table: neither speed nor depth of one plunge describes them. */
export const byHand: ReadonlySet<Operation> = new Set(['turn', 'bore', 'mill']);
