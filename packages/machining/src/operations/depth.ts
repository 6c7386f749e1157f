import { distance } from '@fayplate/core';
import { pointLength } from '@fayplate/handbook';
import type { Plate, PlateBore, PlateHole, Side } from '@fayplate/plate';

/** How far beyond the far face a drill's corner or a reamer's end must run, mm (common practice). */
export const RUN_THROUGH = 1;

/** To the drill's point, so that the full diameter comes through the far face or to the depth asked for, mm. */
export const drillDepth = (diameter: number, fullDepth: number | null, thickness: number): number =>
  endDepth(fullDepth, thickness) + pointLength(diameter);

/** To the end of a tool without a point, mm. */
export const endDepth = (fullDepth: number | null, thickness: number): number => fullDepth ?? thickness + RUN_THROUGH;

/** Where a hole's own metal begins and ends by the flats that depths are measured from, mm. */
export interface Ends {
  /** Below the flat of the side it is cut from: the floor of a recess; above it, so less than nothing, on a raised spigot. */
  readonly mouth: number;
  /** Beyond the other flat: through a raised spigot that stands there. */
  readonly beyond: number;
}

/** Of metal between two heights, cut from a side; a hole in an opening is looked at as if the plate were whole there. */
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
