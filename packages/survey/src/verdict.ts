import type { LocatedFace } from './types.js';

/**
 * Sound readings of a face disagree so much once in this many faces: the same odds as for one reading called suspect.
 */
const SELDOM = 0.001;

/** Whether the readings together agree as their ± say (χ² of all; true where none is to spare). */
export const agrees = ({ fit }: LocatedFace): boolean => fit.p === null || fit.p >= SELDOM;

/** Whether no reading is suspect and all together are in keeping with their ±. */
export const inKeeping = (located: LocatedFace): boolean => located.suspects.length === 0 && agrees(located);

/**
 * Whether the readings leave one arrangement of the centres, one that could be made, and the search for others came to
 * its end.
 */
export const isOneArrangement = ({ arrangements: { rivals, overlaps, searched } }: LocatedFace): boolean =>
  rivals.length === 0 && overlaps.length === 0 && searched;

/**
 * Whether the centres may be relied on: all fixed, in one arrangement, no reading suspect, and all together in keeping
 * with their ±.
 */
export const isSound = (located: LocatedFace): boolean =>
  located.stopped.converged && located.undetermined.length === 0 && isOneArrangement(located) && inKeeping(located);
