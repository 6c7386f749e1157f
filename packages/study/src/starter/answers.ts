import type { LengthUnit } from '@fayplate/core';

/** One part as a person describes it before measuring. */
export interface PartAnswers {
  readonly name: string;
  /** What locates it: a round feature about its middle, or none. */
  readonly middle: 'spigot' | 'bore' | 'none';
  readonly fasteners: 'stud' | 'hole';
  /** Roughly where on the clock, such as `12` or `9:30`. */
  readonly clocks: readonly string[];
}

/** All that a job is begun with. */
export interface StarterAnswers {
  readonly job: string;
  readonly units: LengthUnit;
  /** ± of a caliper reading, as written. */
  readonly caliper: string;
  readonly parts: readonly [PartAnswers, PartAnswers];
}

/** The instrument's ± that is usual for a good caliper in careful hands (common practice). */
export const usualCaliper = (units: LengthUnit): string => (units === 'in' ? '± 0.002 in' : '± 0.05 mm');
