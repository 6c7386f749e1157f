import { type Point, distance } from '@fayplate/core';
import { pointLength } from '@fayplate/handbook';
import type { Plate, PlateBore, PlateHole, Side } from '@fayplate/plate';
import type { Limits, Operation } from '../types.js';

/** Limits of a reamed hole or a slot's width, mm; null for a drilled hole. */
export const holeLimits = (hole: PlateHole): Limits | null =>
  hole.as === 'dowel' || hole.as === 'slot' ? hole.limits : null;

/** One cut of one hole, before it is placed, grouped and numbered; place in the plate frame, mm. */
export interface Cut {
  readonly hole: string;
  readonly at: Point;
  readonly op: Operation;
  readonly tool: string;
  readonly toolDiameter: number;
  /**
   * mm below the flat of the side it is cut from: to the point for spot, pilot and drill, to the shoulder or end for
   * others.
   */
  readonly depth: number;
  readonly side: Side;
  /** Thread pitch for a tap, mm. */
  readonly pitch: number | null;
  readonly note: string | null;
  /**
   * Least and greatest size that the cut leaves, mm: a diameter, or the width of a slot; left out where a drill makes
   * what it makes.
   */
  readonly limits?: Limits | null;
  /** Least and greatest depth (of a raised spigot: height) that it leaves, mm. */
  readonly depthLimits?: Limits | null;
  /** Cuts that a boring head takes from the hole that it finds, a light one last. */
  readonly passes?: number | null;
}

/**
 * The order in which a shop takes them; within one, the smaller tool first. A raised spigot is turned or milled first,
 * for it makes the flat that every depth is measured from.
 */
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

/**
 * One centre drill spots every hole: No. 3, body 1/4 in, pilot about 2.8 mm long (from memory), entered until its cone
 * leads a drill.
 */
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

/**
 * How long tools are that are usually sold, mm by diameter: jobber drills to 14, taper shanks above. Source: DIN 338
 * and DIN 345, from memory.
 */
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

/** How far beyond the far face a drill's corner or a reamer's end must run, mm (common practice). */
export const RUN_THROUGH = 1;

/** To the drill's point, so that the full diameter comes through the far face or to the depth asked for, mm. */
export const drillDepth = (diameter: number, fullDepth: number | null, thickness: number): number =>
  endDepth(fullDepth, thickness) + pointLength(diameter);

/** To the end of a tool without a point, mm. */
export const endDepth = (fullDepth: number | null, thickness: number): number => fullDepth ?? thickness + RUN_THROUGH;

/** Where a hole's own metal begins and ends by the flats that depths are measured from, mm. */
export interface Ends {
  /**
   * Below the flat of the side it is cut from: the floor of a recess; above it, so less than nothing, on a raised
   * spigot.
   */
  readonly mouth: number;
  /** Beyond the other flat: through a raised spigot that stands there. */
  readonly beyond: number;
}

/**
 * Of metal between two heights, cut from a side; a hole in an opening is looked at as if the plate were whole there.
 */
export const endsOf = ([low, high]: PlateHole['land'], side: Side, thickness: number): Ends => {
  if (high <= low) return { mouth: 0, beyond: 0 };
  return side === 'A'
    ? { mouth: low, beyond: Math.max(0, high - thickness) }
    : { mouth: thickness - high, beyond: Math.max(0, -low) };
};

/** Of a bore, which may go on through the raised spigots that stand round it. */
export const boreEnds = (bore: PlateBore, plate: Plate, side: Side): Ends => {
  const proud = (of: Side): number =>
    Math.max(
      0,
      ...plate.bores
        .filter((b) => b.kind === 'spigot' && b.side === of && distance(b, bore) < b.diameter / 2)
        .map((b) => b.depth ?? 0),
    );
  return endsOf([-proud('A'), plate.thickness + proud('B')], side, plate.thickness);
};
