import type { Reading, ReadingKind } from '@fayplate/job';

/** A reading that does not agree with the rest, and what the rest say it should have been. */
export interface Misfit {
  readonly reading: Reading;
  /** The number as the job holds it, mm or radians; one coordinate of an `at`. */
  readonly value: number;
  /** What the other readings alone say it should have been. */
  readonly expected: number;
  /** Standard uncertainty of value − expected. */
  readonly sigma: number;
  /** What a reading of this kind on these features would have been; null where the job cannot say. */
  readonly wouldRead: (kind: ReadingKind, features: readonly string[]) => number | null;
  /** Every feature of the face, in the order of the job. */
  readonly features: readonly string[];
}

/** One way in which a person may have come to the wrong number. */
export interface Slip {
  readonly says: string;
  /** What is left of the misfit if this is what happened, mm or radians. */
  readonly left: number;
  /** How common the slip is beside the others, a judgement: the weights of one list need not add up to 1. */
  readonly weight: number;
}
