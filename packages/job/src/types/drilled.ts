import type { Point } from '@fayplate/core';
import type { Length } from './stack.js';

/** What was found when the parts were put together for a trial. Lengths in mm. */
export interface TrialSpec {
  /** The part whose joint with the plate was tried. */
  readonly face: string;
  readonly gaps: readonly TrialGap[];
  readonly instrument: string | null;
  /** ± of an error that all the gaps share; null: none is stated. */
  readonly zero: number | null;
  /** Taken between what must not touch: shims open it. Else open in the joint: shims fill it. */
  readonly inside: boolean;
  readonly leave: number;
  /** As compressed, still to go in; null: none. */
  readonly gasket: Length | null;
  readonly shims: { readonly from: readonly number[]; readonly atMost: number } | null;
}

/** One gap; `at` in the frame of its face as viewed, null: at the feature of its name. */
export interface TrialGap {
  readonly name: string;
  readonly at: Point | null;
  readonly value: number;
  readonly plusMinus: number;
}

/** A dial carried on one shaft that sweeps the other, mm: its whole travel in one turn of both together. */
export interface AssembledReading {
  readonly id: string;
  readonly text: string;
  /** The part whose shaft is swept, and the one that carries the dial. */
  readonly swept: string;
  readonly about: string;
  /** mm from the axis at which a face was swept; null: the rim was. */
  readonly radius: number | null;
  readonly travel: number;
  readonly plusMinus: number;
  /**
   * Where what is swept stands out farthest: a hole of the plate or the feature that it is for, or radians clockwise
   * from 12 as drawn. Null: not read.
   */
  readonly toward: { readonly feature: string } | { readonly clockwise: number } | null;
}

/** Sizes of the drilled plate that no reading from hole to hole tells, mm. */
export interface DrilledSizes {
  readonly thickness: number | null;
  /** ± of that thickness, mm; left out: none is written. */
  readonly thicknessWithin?: number;
  /** Recess or raised spigot (`C2`) → how deep it is, or how high. */
  readonly depths: ReadonlyMap<string, number>;
  /** Over all, as drawn; a round plate has one diameter. Left out or null: not measured. */
  readonly outline?: { readonly width: number; readonly height: number } | { readonly diameter: number } | null;
  /** Slot (`H3`) → its width, and the length between its end centres; null where only the other is measured. */
  readonly slots?: ReadonlyMap<string, { readonly width: number | null; readonly length: number | null }>;
}
