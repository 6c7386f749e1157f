import { type LengthUnit, exactFraction, perUnit } from '@fayplate/core';
import { inchDrills, millimetreDrills, nearestDrill } from '@fayplate/handbook';
import type { MachineSpec, Tool } from '@fayplate/job';
import { placesIn } from '../frame/rounding.js';

/** What the planning of cuts asks of the shop: its own tools where it lists them, else those sold in its unit. */
export interface Shop {
  /** The nearest drill, or the nearest that is no larger. */
  readonly drill: (diameter: number, bound?: 'either' | 'at most') => Tool;
  /** Largest hole that is drilled and not bored, mm. */
  readonly largestDrill: number;
  /** A size for notes, in the shop's unit. */
  readonly say: (mm: number) => string;
  /** The size that a tool is sold by, whatever the shop's unit: `8 mm`, `3/8 in`; else in the shop's unit. */
  readonly sold: (mm: number) => string;
}

/** Largest drill of a shop that does not list its own, mm (common practice: 1 in, with a taper shank). */
const LARGEST = 25.4;

export const shopOf = (machine: MachineSpec | null, unit: LengthUnit): Shop => {
  const own = machine?.drills ?? [];
  const sold = unit === 'in' ? inchDrills() : millimetreDrills();
  const say = (mm: number): string => `${Number((mm / perUnit(unit)).toFixed(placesIn(unit)))} ${unit}`;
  const drills: readonly Tool[] = own.length > 0 ? own : sold;
  return {
    drill: (d, bound = 'either') =>
      (nearestDrill(d, drills, bound) ?? nearestDrill(d, sold))?.drill ?? { name: `${d} mm`, diameter: d },
    largestDrill: Math.min(LARGEST, Math.max(...drills.map((d) => d.diameter))),
    say,
    sold: (mm) =>
      isTenth(mm) ? `${Number(mm.toFixed(1))} mm` : exactFraction(mm) === null ? say(mm) : `${exactFraction(mm)} in`,
  };
};

const isTenth = (mm: number): boolean => Math.abs(10 * mm - Math.round(10 * mm)) < 1e-9;

/** Left for the reamer, mm on the diameter (common practice: 0.2 mm to 10 mm, 0.3 mm above). */
export const reamAllowance = (diameter: number): number => (diameter <= 10 ? 0.2 : 0.3);

/** Above this a drill wants a pilot hole for its web, mm (common practice: 1/2 in or so). */
export const PILOT_ABOVE = 12;

/** Pilot for a drill: a little over its web, about three tenths of its diameter (common practice). */
export const pilotFor = (diameter: number): number => 0.3 * diameter;

/** `drill 13/32 in`, `drill #7`, `drill 8.5 mm`: a bare fraction is of an inch. */
export const drillWords = (name: string): string => `drill ${/^[\d /]+$/.test(name) ? `${name} in` : name}`;
