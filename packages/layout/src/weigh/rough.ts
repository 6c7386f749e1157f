import { informing } from '../fit/information.js';
import { findGroups } from '../groups/find.js';
import { spread } from '../groups/near.js';
import type { Measured } from '../measured/points.js';
import { logSum } from '../prior/logs.js';
import { ROUGH, misses } from '../prior/rough.js';
import { draftOf } from './weigh.js';

/** The centres as if each had also been made with an independent error of this standard deviation, mm, in each direction. */
const roughened = (measured: Measured, miss: number): Measured => {
  const covariance = Float64Array.from(measured.covariance);
  const size = 2 * measured.points.length;
  for (const f of measured.fasteners) for (const r of [2 * f, 2 * f + 1]) covariance[r * (size + 1)] = (covariance[r * (size + 1)] as number) + miss * miss;
  return { ...measured, covariance };
};

/**
 * Log weight of all layouts that were meant but missed everywhere (see `ROUGH`), over that of the same centres each anywhere on the face: the
 * single groups that the centres suggest when each may be off by so much, sizes free.
 */
export const logRough = (measured: Measured): number => {
  const typical = measured.fasteners.map((f) => spread(measured, f)).sort((a, b) => a - b)[Math.floor(measured.fasteners.length / 2)] ?? 0;
  const logs = misses.flatMap((k) => {
    const miss = (k * typical) / Math.SQRT2;
    if (miss > measured.room / 10) return [];
    const rough = roughened(measured, miss);
    const inform = informing(rough);
    return findGroups(rough).map((group) => draftOf(rough, [group], inform)?.base ?? Number.NEGATIVE_INFINITY);
  });
  return Math.log(ROUGH / misses.length) + logSum(logs);
};
