import type { MachineSpec, Tool } from '@fayplate/job';

/** What the planning of cuts asks of the shop: its own tools where it says, else those that are sold. */
export interface Shop {
  readonly drill: (diameter: number) => Tool;
  /** Largest hole that is drilled and not bored, mm. */
  readonly largestDrill: number;
}

/** Largest drill of a shop that does not list its own, mm (common practice: 1 in with a taper shank). */
const LARGEST = 25;

export const shopOf = (machine: MachineSpec | null): Shop => {
  const own = machine?.drills ?? [];
  if (own.length === 0) return { drill: stock, largestDrill: LARGEST };
  return {
    drill: (d) => own.reduce((a, b) => (Math.abs(b.diameter - d) < Math.abs(a.diameter - d) ? b : a)),
    largestDrill: LARGEST,
  };
};

const stock = (diameter: number): Tool => {
  const d = Math.max(0.5, Math.round(diameter * 10) / 10);
  return { name: `${d} mm`, diameter: d };
};

/** Left for the reamer, mm on the diameter (common practice: 0.2 mm to 10 mm, 0.3 mm above). */
export const reamAllowance = (diameter: number): number => (diameter <= 10 ? 0.2 : 0.3);

/** Above this a drill wants a pilot hole for its web, mm (common practice: 1/2 in or so). */
export const PILOT_ABOVE = 12;

/** Pilot for a drill: a little over its web, about three tenths of its diameter (common practice). */
export const pilotFor = (diameter: number): number => 0.3 * diameter;
