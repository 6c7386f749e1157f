import { MM_PER_INCH, type Point } from '@fayplate/core';
import { isoFit } from '../fits/limits.js';
import type { Source } from '../source.js';

/** How far a row was checked: read in two places that agree, in one, or in none. */
export type Read = 'two places' | 'one source' | 'from memory';

/** A size with its limits, mm. */
export interface Sized {
  readonly nominal: number;
  readonly least: number;
  readonly most: number;
  /** The class of fit, such as `j6`; null where the limits are not a class. */
  readonly fit: string | null;
}

/**
 * A shaft that goes with a face: the frame that it belongs to, its diameter and how far it stands out of the face, mm.
 */
export interface FaceShaft {
  readonly frame: string;
  readonly diameter: number;
  readonly length: number;
}

/**
 * A face as a published standard has it, seen from off the part, mm. Its holes are equally spaced on one circle about
 * the register, the first of them half a division clockwise from 12 o'clock, so that they straddle the upright.
 */
export interface StandardFace {
  /** As the trade writes it: `IEC FF165`, `NEMA 56C`, `SAE B 2-bolt`. */
  readonly name: string;
  /** Other names of the same face: `FF165`, `A200`. */
  readonly also: readonly string[];
  /** The standard, with its edition. */
  readonly standard: string;
  /** What it joins: `motor flange`, `pipe flange`. */
  readonly what: string;
  /**
   * What centres it: a spigot that stands out or a bore that takes one; `reach` is its height or depth. Null: nothing
   * does.
   */
  readonly register: (Sized & { readonly kind: 'spigot' | 'bore'; readonly reach: number | null }) | null;
  readonly holes: {
    readonly count: number;
    /** Diameter of the circle through their centres. */
    readonly circle: number;
    /** Tapped holes have a thread, plain ones a size. */
    readonly thread: string | null;
    readonly size: Sized | null;
    /** ± of one hole's centre from its true place about the register. */
    readonly place: number;
    /** Where that ± comes from. */
    readonly placeSource: Source;
  };
  /** A hole for a dowel on the same circle, at 12 o'clock; its place is held to `place`. */
  readonly dowel: (Sized & { readonly place: number }) | null;
  /** Outside diameter or the greatest width over all; null where the standard leaves it open. */
  readonly outside: number | null;
  /** Thickness where bolts pass. */
  readonly thick: number | null;
  readonly shafts: readonly FaceShaft[];
  readonly read: Read;
  readonly source: Source;
  /** Where sources disagree, both figures. */
  readonly disagree: readonly string[];
}

/** A size from its ISO 286 class. */
export const fitted = (nominal: number, fit: string): Sized => {
  const limits = isoFit(fit, nominal);
  if (limits === null) throw new RangeError(`no ISO 286 limits for ${nominal} ${fit}`);
  return { nominal, least: limits.least, most: limits.most, fit };
};

/** A size with its deviations, mm. */
export const between = (nominal: number, lower: number, upper: number): Sized => ({
  nominal,
  least: nominal + lower,
  most: nominal + upper,
  fit: null,
});

/** A drilled hole: H13 on its size. `from` where another source has a smaller one. */
export const drilled = (nominal: number, from = nominal): Sized => {
  const { most } = fitted(nominal, 'H13');
  return { nominal, least: Math.min(from, nominal), most, fit: null };
};

export const inch = (inches: number): number => inches * MM_PER_INCH;

/** A medium tolerance of ISO 2768-1 on a circle's diameter, as a ± of one hole's place (half of it), mm. */
export const mediumPlace = (circle: number): number => (circle <= 120 ? 0.15 : circle <= 400 ? 0.25 : 0.4);

export const mediumSource = 'ISO 2768-1 medium on the circle, common practice: the standard’s own was not read';

/** The parts that most faces leave out. */
export const plainFace = { also: [], dowel: null, outside: null, thick: null, shafts: [], disagree: [] } as const;

/**
 * A hole of a standard face: its name, its clock (radians counter-clockwise from +x) and its centre about the register,
 * mm.
 */
export interface FaceHole {
  readonly id: string;
  readonly clock: number;
  readonly at: Point;
}

/** No −0 and no 1e-15. */
const clean = (mm: number): number => Math.round(mm * 1e9) / 1e9 + 0;

/** The bolt holes B1, B2 … clockwise from 12 o'clock, the first half a division past it; seen from off the part. */
export const faceHoles = ({ holes: { count, circle } }: StandardFace): readonly FaceHole[] =>
  Array.from({ length: count }, (_, i) => {
    const clock = Math.PI / 2 - ((i + 0.5) * 2 * Math.PI) / count;
    return {
      id: `B${i + 1}`,
      clock,
      at: { x: clean((circle / 2) * Math.cos(clock)), y: clean((circle / 2) * Math.sin(clock)) },
    };
  });
