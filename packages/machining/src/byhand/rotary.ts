import { type Point, heading, norm, subtract } from '@fayplate/core';
import type { Plate } from '@fayplate/plate';

/** One hole by a rotary table that is read in degrees: from the centre, mm, and turned from the first hole, radians. */
interface RotaryHole {
  readonly hole: string;
  readonly radius: number;
  /** As wanted, anticlockwise as seen from side B, in [0, 2π). */
  readonly angle: number;
  /** The nearest division. */
  readonly set: number;
  /** Place error that the division leaves, mm. */
  readonly error: number;
}

/** Every round hole by a rotary table, about one centre. */
export interface Rotary {
  /** Its smallest division, radians. */
  readonly step: number;
  readonly about: string;
  readonly holes: readonly RotaryHole[];
  /** Greatest place error, mm. */
  readonly worst: number;
}

const TURN = 2 * Math.PI;

/**
 * Round holes on a rotary table that is set true to `centre`, each from the first, so that errors never add up. Null
 * with no hole off the centre.
 */
export const rotary = (plate: Plate, step: number, centre: Point, about: string): Rotary | null => {
  const around = plate.holes.filter((h) => h.slot === null && norm(subtract(h, centre)) > 1e-6);
  const [first] = around;
  if (first === undefined) return null;
  const zero = heading(subtract(first, centre));
  const holes = around.map((h): RotaryHole => {
    const off = (((heading(subtract(h, centre)) - zero) % TURN) + TURN) % TURN;
    const angle = off > TURN - 1e-12 ? 0 : off;
    const set = Math.round(angle / step) * step;
    const radius = norm(subtract(h, centre));
    return { hole: h.id, radius, angle, set: set >= TURN - 1e-12 ? 0 : set, error: radius * Math.abs(angle - set) };
  });
  return { step, about, holes, worst: Math.max(...holes.map((h) => h.error)) };
};
