import { findRegular } from '../groups/find.js';
import type { Group } from '../groups/group.js';
import { spread } from '../groups/near.js';
import { type Measured, informing } from '../measured.js';
import { logSum } from '../prior/length.js';
import { ROUGH, misses } from '../prior/structure.js';
import { draftOf } from './weigh.js';

/** Layouts that were meant but missed everywhere, all together and the likeliest of them. */
export interface RoughWork {
  /** Log (prior × marginal likelihood), over that of the same centres each anywhere on the face. */
  readonly log: number;
  readonly nearest: { readonly group: Group; readonly miss: number } | null;
}

/**
 * The centres as if each had also been made with an independent error of this standard deviation, mm, in each
 * direction.
 */
export const roughened = (measured: Measured, miss: number): Measured => {
  const covariance = Float64Array.from(measured.covariance);
  const size = 2 * measured.points.length;
  for (const f of measured.fasteners)
    for (const r of [2 * f, 2 * f + 1])
      covariance[r * (size + 1)] = (covariance[r * (size + 1)] as number) + miss * miss;
  return { ...measured, covariance };
};

/**
 * The single regular groups that the centres suggest when each may be off by more than the readings say; sizes free.
 * See `ROUGH`.
 */
export const roughWork = (measured: Measured): RoughWork => {
  const typical =
    measured.fasteners.map((f) => spread(measured, f)).sort((a, b) => a - b)[
      Math.floor(measured.fasteners.length / 2)
    ] ?? 0;
  const found = misses.flatMap((k) => {
    const miss = (k * typical) / Math.SQRT2;
    if (miss > measured.extent / 10) return [];
    const rough = roughened(measured, miss);
    const inform = informing(rough);
    return findRegular(rough).map((group) => ({
      group,
      miss,
      log: draftOf(rough, [group], inform)?.base ?? Number.NEGATIVE_INFINITY,
    }));
  });
  const [nearest] = [...found].sort((a, b) => b.log - a.log);
  return { log: Math.log(ROUGH / misses.length) + logSum(found.map((f) => f.log)), nearest: nearest ?? null };
};
