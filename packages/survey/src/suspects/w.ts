import type { Adjustment } from '../adjust/adjustment.js';

/** Baarda's w of one observation: its residual over that residual's own standard deviation; null where nothing checks it. */
export const wOf = ({ network, residuals, redundancy }: Adjustment, i: number): number | null => {
  const r = redundancy[i] as number;
  const sigma = network.observations[i]?.sigma ?? 1;
  return r > 0 ? (residuals[i] as number) / (sigma * Math.sqrt(r)) : null;
};

/** Equal |w| to all that the adjustment can tell. */
export const isTied = (a: number, b: number): boolean =>
  Math.abs(Math.abs(a) - Math.abs(b)) <= 1e-6 * Math.max(Math.abs(a), Math.abs(b), 1);
