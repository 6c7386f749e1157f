import type { LengthUnit } from '@fayplate/core';

/** One part as a person describes it before measuring. */
export interface PartAnswers {
  readonly name: string;
  /** What locates it: a round feature about its middle, or none. */
  readonly middle: 'spigot' | 'bore' | 'none';
  readonly fasteners: 'stud' | 'hole';
  /** All of one size, as holes of one drill are; not said where left out. */
  readonly alike?: true;
  /** Roughly where on the clock, such as `12` or `9:30`. */
  readonly clocks: readonly string[];
  /** The thread of its fasteners, as written in a job; null or left out where not known. */
  readonly thread?: string | null;
  /** From where it is looked at; from outside where left out. */
  readonly viewed?: 'from outside' | 'from behind';
  /**
   * Two of its clocks, between whose features the x axis runs, the first at (0, 0); null or left out where the middle
   * or the clocks give the frame.
   */
  readonly across?: readonly [string, string] | null;
}

/** All that a job is begun with. */
export interface StarterAnswers {
  readonly job: string;
  readonly units: LengthUnit;
  /** ± of a caliper reading, as written. */
  readonly caliper: string;
  /** Other instruments that are at hand, as lines of the job: `rule: ± 1/64 in`. */
  readonly instruments?: readonly string[];
  readonly parts: readonly [PartAnswers, PartAnswers];
}

/** The instrument's ± that is usual for a good caliper in careful hands (common practice). */
export const usualCaliper = (units: LengthUnit): string => (units === 'in' ? '± 0.002 in' : '± 0.05 mm');
