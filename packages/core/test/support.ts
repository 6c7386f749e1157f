import fc from 'fast-check';
import type { Point } from '../src/index.js';

/** Explicit seeds: a failure is repeated by running again. */
export const seeded = { seed: 20_261, numRuns: 300 } as const;
export const within = (least: number, most: number): fc.Arbitrary<number> =>
  fc.double({ min: least, max: most, noNaN: true });
export const aPoint: fc.Arbitrary<Point> = fc.record({ x: within(-500, 500), y: within(-500, 500) });
export const aTurn = within(-Math.PI, Math.PI);
