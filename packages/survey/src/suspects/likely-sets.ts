import { type FirstOrder, type WeighedSet, setsLeftOut } from '../adjust/first-order.js';
import type { Network } from '../network/network.js';
import { slipEvidence, slipRate } from './slip-odds.js';

/**
 * Sets of one, two and three readings that may be wrong, the likeliest of each size first, by their evidence to first
 * order (see `hypothesis`, which weighs clocks and common slips too).
 */
export const likelySets = (
  { observations }: Network,
  first: FirstOrder,
  most: number,
): Generator<readonly WeighedSet[], void> =>
  setsLeftOut(first, most, (wrong, { errors, variances, fall, determinant }) =>
    wrong.reduce(
      (sum, i, k) => {
        const o = observations[i];
        const [error, variance] = [errors[k] ?? 0, variances[k] ?? 1];
        const slip = o === undefined ? 0 : Math.log(slipRate(o) * slipEvidence(error, Math.sqrt(variance), []));
        return sum + slip - Math.log(variance) / 2;
      },
      (fall - first.chi2 + Math.log(determinant)) / 2,
    ),
  );
