import type { Side } from '../assemble/types.js';
import type { CutFor, PartFeature } from './hole.js';

/** Straight sides with round corners, mm; `angle`: which way its length runs, radians. */
export interface BoreBox {
  readonly length: number;
  readonly width: number;
  readonly corner: number;
  readonly angle: number;
  /**
   * How far it reaches back from its place, against `angle`: half its length; of a notch, which opens forward over the
   * edge, half its width.
   */
  readonly behind: number;
  /** It runs out over the edge of the plate. One that goes through is part of the outline. */
  readonly notch?: true;
}

/** A register, a bore, a relief or a cut of the plate; mm, plate frame. */
export interface PlateBore {
  /** It is cut already. */
  readonly done?: true;
  readonly cut?: CutFor;
  /** C1, C2, … */
  readonly id: string;
  /** central bore, recess for a spigot, raised spigot for a bore, relief pocket for a boss. */
  readonly kind: 'bore' | 'recess' | 'spigot' | 'relief';
  /** `motor.spigot`, the name of `part`; null for a bore that the plate alone has. */
  readonly feature: string | null;
  readonly part: PartFeature | null;
  readonly x: number;
  readonly y: number;
  /** Of one with straight sides the widest circle that lies in it. */
  readonly diameter: number;
  /** Of a pocket with straight sides or a notch; left out: it is round. */
  readonly box?: BoreBox;
  readonly limits: readonly [number, number] | null;
  /** 'through' or the side it is cut from (a spigot rises from). */
  readonly side: Side | 'through';
  /** mm; null for through. */
  readonly depth: number | null;
}
