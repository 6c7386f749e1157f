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
  /** Least and greatest size that the cut leaves, mm: a diameter, or the width of a slot; left out where a drill makes what it makes. */
  readonly limits?: Limits | null;
  /** Least and greatest depth (of a raised spigot: height) that it leaves, mm. */
  readonly depthLimits?: Limits | null;
  /** Cuts that a boring head takes from the hole that it finds, a light one last. */
  readonly passes?: number | null;
}

export type Limits = readonly [least: number, most: number];

/** The order in which a shop takes them; within one, the smaller tool first. A raised spigot is turned or milled first, for it makes the flat that every depth is measured from. */
export const shopOrder: readonly Operation[] = [
  'face',
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

/** A pocket that only clears is milled with what the shop has. */
export const CLEARING = 'end mill, to clear';

/** How long tools are that are usually sold, mm by diameter: jobber drills to 14, taper shanks above. Source: DIN 338 and DIN 345, from memory. */
const lengths: readonly (readonly [diameter: number, long: number])[] = [
  [3, 61],
  [5, 86],
  [8, 117],
  [10, 133],
  [13, 151],
  [16, 218],
  [20, 238],
  [25.4, 286],
];

/** Of a centre drill, a cutter on an arbor or a boring head, mm (common practice). */
const SHORT = 60;
const HEAD = 120;

/** About how long the tool of a cut is, mm: what must find room between spindle and plate. */
export const toolLength = ({ op, toolDiameter }: Pick<Cut, 'op' | 'toolDiameter'>): number => {
  if (op === 'spot' || op === 'face') return SHORT;
  if (op === 'bore' || op === 'turn') return HEAD;
  if (op !== 'pilot' && op !== 'drill' && op !== 'ream') return HEAD;
  return lengths.find(([d]) => toolDiameter <= d + 1e-9)?.[1] ?? 300;
};
