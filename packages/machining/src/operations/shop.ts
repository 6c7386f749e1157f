import { type LengthUnit, exactFraction, perUnit } from '@fayplate/core';
import { inchDrills, millimetreDrills, nearestDrill } from '@fayplate/handbook';
import type { MachineSpec, Tool } from '@fayplate/job';
import { type Plate, soldWords } from '@fayplate/plate';
import { placesIn } from '../frame/places.js';

/** What the planning of cuts asks of the shop: its own tools where it lists them, else those sold in its unit. */
export interface Shop {
  /** The nearest drill, or the nearest that is no larger. */
  readonly drill: (diameter: number, bound?: 'either' | 'at most') => Tool;
  /** A pilot for a drill: one that the plate wants anyway where it serves, else the nearest to the usual size. */
  readonly pilot: (diameter: number) => Tool;
  /**
   * A hole to start a boring bar in, no larger than this: one that the plate wants anyway, else a size of the usual
   * set.
   */
  readonly starter: (atMost: number) => Tool;
  /** The end mill below a slot's width; `up`: the widest that is no wider. */
  readonly endMill: (width: number, up?: boolean) => Tool;
  /** Whether there is a reamer of this size; those that are sold where the shop lists none. */
  readonly hasReamer: (diameter: number) => boolean;
  /** Largest hole that is drilled and not bored, mm. */
  readonly largestDrill: number;
  /** A size for notes, in the shop's unit. */
  readonly say: (mm: number) => string;
  /** The size that a tool is sold by, whatever the shop's unit: `8 mm`, `3/8 in`; else in the shop's unit. */
  readonly sold: (mm: number) => string;
}

/** Largest drill of a shop that does not list its own, mm (common practice: 1 in, with a taper shank). */
const LARGEST = 25.4;

/** Largest reamer of a shop that does not list its own, mm (common practice: hand reamers to 3/4 in). */
const LARGEST_REAMER = 20;

/** End mills that are sold, mm and inches (common practice). */
const endMills: Readonly<Record<LengthUnit, readonly number[]>> = {
  mm: [2, 3, 4, 5, 6, 7, 8, 9, 10, 12, 14, 16, 18, 20, 25],
  in: [1 / 8, 3 / 16, 1 / 4, 5 / 16, 3 / 8, 7 / 16, 1 / 2, 9 / 16, 5 / 8, 3 / 4, 7 / 8, 1].map((d) => d * 25.4),
};

/**
 * A pilot is a little over the drill's web, about three tenths of its diameter, and serves from a fifth to a half
 * (common practice).
 */
const PILOT = { usual: 0.3, least: 0.2, most: 0.5 };

/** Drills that the holes of a plate want to their own size. */
const sizesIn = (plate: Plate): readonly Tool[] =>
  plate.holes.flatMap((h) =>
    h.as === 'dowel' || h.as === 'slot' || h.drill === null ? [] : [{ name: h.drill, diameter: h.diameter }],
  );

/** Whole millimetres, or sixteenths of an inch: what a usual set of large drills holds (common practice). */
const isInSet = (d: Tool, unit: LengthUnit): boolean => {
  const steps = unit === 'mm' ? d.diameter : (16 * d.diameter) / 25.4;
  return Math.abs(steps - Math.round(steps)) < 1e-6;
};

const nearestTo = (tools: readonly Tool[], size: number): Tool | undefined =>
  tools.toSorted((a, b) => Math.abs(a.diameter - size) - Math.abs(b.diameter - size))[0];

const largest = (tools: readonly Tool[]): Tool | undefined => tools.toSorted((a, b) => b.diameter - a.diameter)[0];

export const shopOf = (machine: MachineSpec | null, unit: LengthUnit, plate: Plate | null = null): Shop => {
  const own = machine?.drills ?? [];
  const sold = unit === 'in' ? inchDrills() : millimetreDrills();
  const say = (mm: number): string => `${Number((mm / perUnit(unit)).toFixed(placesIn(unit)))} ${unit}`;
  const drills: readonly Tool[] = own.length > 0 ? own : sold;
  const wanted = plate === null ? [] : sizesIn(plate);
  const largestDrill = Math.min(LARGEST, Math.max(...drills.map((d) => d.diameter)));
  const drill: Shop['drill'] = (d, bound = 'either') =>
    (nearestDrill(d, drills, bound) ?? nearestDrill(d, sold))?.drill ?? { name: `${d} mm`, diameter: d };
  return {
    drill,
    pilot: (d) =>
      nearestTo(
        wanted.filter((w) => w.diameter >= PILOT.least * d && w.diameter <= PILOT.most * d),
        PILOT.usual * d,
      ) ?? drill(PILOT.usual * d),
    starter: (atMost) => {
      const set = drills.filter((d) => d.diameter <= Math.min(atMost, largestDrill) + 1e-9);
      const usual = largest(own.length > 0 ? set : set.filter((d) => isInSet(d, unit))) ?? drill(atMost, 'at most');
      const serving = wanted.filter((w) => w.diameter <= atMost + 1e-9 && w.diameter >= 0.95 * usual.diameter);
      return largest(serving) ?? usual;
    },
    endMill: (width, up = false) => {
      const most = up ? width + 1e-9 : width - 0.4;
      const d = Math.max(...endMills[unit].filter((m) => m < most), Math.min(...endMills[unit]));
      return { name: unit === 'mm' ? `${d} mm` : `${exactFraction(d) ?? d} in`, diameter: d };
    },
    hasReamer: (d) => {
      const reamers = machine?.reamers ?? [];
      return reamers.length === 0 ? d <= LARGEST_REAMER : reamers.some((r) => Math.abs(r.diameter - d) < 0.005);
    },
    largestDrill,
    say,
    sold: (mm) => soldWords(mm, { unit }),
  };
};

/** Left for the reamer, mm on the diameter (common practice: 0.2 mm to 10 mm, 0.3 mm above). */
export const reamAllowance = (diameter: number): number => (diameter <= 10 ? 0.2 : 0.3);

/** A drill larger than this needs a pilot hole for its web, mm (common practice: 1/2 in or so). */
export const PILOT_ABOVE = 12;

/** `drill 13/32 in`, `drill #7`, `drill 8.5 mm`: a bare fraction is of an inch. */
export const drillWords = (name: string): string => `drill ${/^[\d /]+$/.test(name) ? `${name} in` : name}`;

/**
 * What a boring head takes off the radius in one cut, mm: half a millimetre, a whole one in light metal; a tenth the
 * last time (common practice).
 */
const CUT = { light: 1, other: 0.5, last: 0.1 };

/** Cuts from one diameter to another, mm, the last one light. */
export const boringPasses = (from: number, to: number, material: string | null): number => {
  const each = material === 'aluminium' || material === 'acetal' || material === 'plywood' ? CUT.light : CUT.other;
  return Math.max(1, Math.ceil((Math.max(0, to - from) / 2 - CUT.last) / each - 1e-9) + 1);
};
