import type { Point } from '@fayplate/core';

/** Whether the plate goes on one part; lengths in mm, chances 0 to 1. */
export interface GoesOn {
  readonly probability: number;
  /** Of the probability; above zero even where every trial went on or none did. */
  readonly standardError: number;
  /** Holds the true probability 95 times in 100 (Wilson's interval). */
  readonly between: readonly [number, number];
  readonly trials: number;
  /** Feature that stops it most often; null where none ever does. */
  readonly worst: string | null;
  /** Feature → its share of the blame over all trials that failed; the shares add up to 1. */
  readonly stops: ReadonlyMap<string, number>;
  /** With everything at its nominal and every hole at its least. */
  readonly nominal: BestFit;
  /**
   * What every fastener's hole would have to be larger by, on the diameter, for 99.7 %, mm; 0 where it is reached, null
   * where none is enough.
   */
  readonly ease: number | null;
  /** Smallest of the fits offered that reaches 99.7 %; null where the stated one does or none can. */
  readonly proposal: string | null;
}

/** What must meet for one face to go on. */
export interface GoesOnSpec {
  readonly joints: readonly Joint[];
  /**
   * 2n × 2n, mm², in the order of `joints`, rows x₁ y₁ x₂ y₂ …: of the part's places less the plate's, the making of
   * the holes left out.
   */
  readonly covariance: readonly (readonly number[])[];
}

/** One pin and the hole that it must enter: a fastener in its clearance hole, a dowel, or a spigot in its register. */
export interface Joint {
  /** The part's feature. */
  readonly id: string;
  readonly role: 'fastener' | 'locator';
  /** Where the plate and the part have it, both in the plate's frame, mm. */
  readonly plate: Point;
  readonly part: Point;
  /**
   * Radial room, least and most, mm: half of hole less pin, the pin at its largest; where a bolt passes two loose
   * holes, the room of both together. A locator that is tight (below zero) locates exactly.
   */
  readonly clearance: readonly [number, number];
  /** Direction of a slot, radians, along which the pin is free; null: a round hole. */
  readonly along: number | null;
  /** ± of the plate's hole in x and in y (k = 2), mm; 0 for what the others are measured from. */
  readonly made: number;
}

/** The plate laid on the part as well as it can be, the locators kept. */
export interface BestFit {
  /** Smallest radial clearance left at any fastener, mm; below zero it does not go on. */
  readonly slack: number;
  /** The plate's motion from its nominal place: a turn about the frame's origin, radians, then a shift, mm. */
  readonly turn: number;
  readonly shift: Point;
  /** Features that hold it, those that bear most first. */
  readonly tight: readonly string[];
}
