import type { Adjustment } from '../adjust/adjustment.js';
import type { Observation } from '../network/observation.js';

/** What is known of a suspect when it is set aside: the ground for a plain guess at how it was misread. */
export interface Clue {
  readonly observation: Observation;
  /** The rest of the readings, adjusted without it. */
  readonly without: Adjustment;
  /** What the rest say that it should read, mm or radians. */
  readonly expected: number;
  /** Standard uncertainty of `value − expected`, mm or radians. */
  readonly sigma: number;
}
