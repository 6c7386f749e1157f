import type { Path, Point } from '@fayplate/core';
import type { Pattern } from '@fayplate/survey';

/**
 * The plate in its own frame: seen from side B, looking at the first face; origin the first face's origin,
 * x right, y up, mm; angles radians counter-clockwise. z runs from side A (0) to side B (thickness).
 */
export interface Plate {
  readonly faces: readonly [string, string];
  readonly thickness: number;
  readonly material: { readonly name: string; readonly density: number } | null;
  /** Radians clockwise, as drawn. */
  readonly clocking: number;
  readonly holes: readonly PlateHole[];
  readonly bores: readonly PlateBore[];
  readonly outline: Outline;
  readonly checks: readonly Check[];
  readonly goesOn: ReadonlyMap<string, GoesOn>;
  readonly clockings: readonly { readonly from: number; readonly to: number }[] | null;
  readonly alignment: Alignment | null;
  readonly ok: boolean;
}

export type Side = 'A' | 'B';

export interface PlateHole {
  /** H1, H2, … in the order of the job. */
  readonly id: string;
  /** `pump.P1`; null for a hole that the plate alone has. */
  readonly feature: string | null;
  readonly x: number;
  readonly y: number;
  readonly as: 'clearance' | 'tapped' | 'set stud' | 'dowel' | 'slot' | 'jacking' | 'lifting';
  /** Finished cylinder, mm: the clearance hole, the tap drill, the reamed dowel hole. */
  readonly diameter: number;
  /** Side from which it is drilled; a through hole may be drilled from either. */
  readonly from: Side;
  /** Full-diameter depth, mm; null: through. */
  readonly depth: number | null;
  readonly thread: { readonly name: string; readonly major: number; readonly pitch: number; readonly depth: number | null } | null;
  readonly sink: Sink | null;
  /** A slot's length between its end centres, mm, and direction, radians; null where round. */
  readonly slot: { readonly length: number; readonly angle: number } | null;
  /** Largest diameter of the fastener that passes, mm (F of ASME Y14.5); null where none does. */
  readonly fastener: number | null;
  /** The drill's name in the trade where one makes it: `13/32`, `10.3 mm`, `F`. */
  readonly drill: string | null;
}

export interface Sink {
  readonly kind: 'counterbored' | 'spotfaced' | 'countersunk';
  readonly diameter: number;
  readonly depth: number;
  readonly side: Side;
}

export interface PlateBore {
  readonly id: string;
  /** central bore, recess for a spigot, raised spigot for a bore, relief pocket for a boss. */
  readonly kind: 'bore' | 'recess' | 'spigot' | 'relief';
  readonly feature: string | null;
  readonly x: number;
  readonly y: number;
  readonly diameter: number;
  readonly limits: readonly [number, number] | null;
  /** 'through' or the side it is cut from (a spigot rises from). */
  readonly side: Side | 'through';
  /** mm; null for through. */
  readonly depth: number | null;
}

export interface Outline {
  readonly shape: 'follow' | 'round' | 'rectangle' | 'like';
  readonly path: Path;
  /** mm², of the outline alone. */
  readonly area: number;
  /** kg, cuts taken off; null without a material. */
  readonly mass: number | null;
  /** Smallest blank that holds it: width × height, mm. */
  readonly blank: { readonly width: number; readonly height: number };
}

export interface Check {
  readonly rule: string;
  readonly of: readonly string[];
  readonly value: number;
  readonly limit: number;
  /** 'mm' unless said: '1' is a plain number, 'd' diameters. */
  readonly unit: 'mm' | '1' | 'd' | 'deg';
  /** Value must be at least the limit, or at most. */
  readonly sense: 'least' | 'most';
  readonly ok: boolean;
  readonly source: string;
  /** What would put it right, in words; null where it holds. */
  readonly cure: string | null;
}

export interface GoesOn {
  readonly probability: number;
  readonly standardError: number;
  readonly trials: number;
  /** Feature that stops it most often; null where none ever does. */
  readonly worst: string | null;
  /** Smallest fit that reaches 99.7 %, in words; null where the stated one does or none can. */
  readonly proposal: string | null;
}

export interface Alignment {
  readonly offset: { readonly nominal: number; readonly worst: number; readonly p95: number; readonly limit: number | null };
  /** radians. */
  readonly tilt: { readonly nominal: number; readonly worst: number; readonly p95: number; readonly limit: number | null };
}

/** Both patterns in the plate's frame, in the order of the job. */
export interface MatedFace {
  readonly face: string;
  readonly pattern: Pattern;
  readonly side: Side;
  /** Where the face's own centre feature (or origin) lies, plate frame. */
  readonly centre: Point;
}

export interface StackResult {
  readonly unknown: string;
  /** Null where the limits cannot all be met. */
  readonly worst: { readonly from: number; readonly to: number } | null;
  readonly statistical: { readonly from: number; readonly to: number; readonly coverage: number } | null;
  readonly chosen: number | null;
  readonly shims: readonly number[];
  readonly limits: readonly StackCheck[];
  readonly ok: boolean;
}

export interface StackCheck {
  readonly name: string;
  readonly nominal: number;
  readonly worst: readonly [number, number];
  readonly least: number | null;
  readonly most: number | null;
  readonly ok: boolean;
}
