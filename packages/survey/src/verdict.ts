import type { LocatedFace } from './types.js';

/** Sound readings of a face disagree so much once in this many faces: the same odds as for one reading called suspect. */
const SELDOM = 0.001;

/** Whether the readings together agree as their ± say (χ² of all; true where none is to spare). */
export const agrees = ({ fit }: LocatedFace): boolean => fit.p === null || fit.p >= SELDOM;

/** Whether the centres may be relied on: all fixed, no reading suspect, and all together in keeping with their ±. */
export const isSound = (located: LocatedFace): boolean =>
  located.stopped.converged && located.suspects.length === 0 && located.undetermined.length === 0 && agrees(located);
