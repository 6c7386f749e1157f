import { normalQuantile } from '@fayplate/core';
import type { Adjustment } from '../adjust/adjustment.js';
import type { FittedReading } from '../types.js';

/**
 * |w| above this makes a reading suspect: two-sided α = 0.001, the level of data snooping in W. Baarda, A Testing
 * Procedure for Use in Geodetic Networks, Delft 1968.
 */
export const CRITICAL = 3.29;
export const ALPHA = 0.001;

/** δ₀: an error of δ₀ σ/√r is found 80 times in 100 at α (Baarda's non-centrality, √17.07). */
export const DETECTABLE = normalQuantile(1 - ALPHA / 2) + normalQuantile(0.8);

/** The smallest error that would be found so, in the unit of `sigma`; null where nothing checks the reading. */
export const detectableError = (sigma: number, redundancy: number): number | null =>
  redundancy > 0 ? (DETECTABLE * sigma) / Math.sqrt(redundancy) : null;

/**
 * Baarda's w of one observation: its residual over that residual's own standard deviation; null where nothing checks
 * it.
 */
export const wOf = ({ network, residuals, redundancy }: Adjustment, i: number): number | null => {
  const r = redundancy[i] as number;
  const sigma = network.observations[i]?.sigma ?? 1;
  return r > 0 ? (residuals[i] as number) / (sigma * Math.sqrt(r)) : null;
};

/** Equal |w| to all that the adjustment can tell. */
export const isTied = (a: number, b: number): boolean =>
  Math.abs(Math.abs(a) - Math.abs(b)) <= 1e-6 * Math.max(Math.abs(a), Math.abs(b), 1);

/** Every observation with its residual and how well the others check it. */
export const fittedReadings = (adjustment: Adjustment): readonly FittedReading[] =>
  adjustment.network.observations.map((o, i) => {
    const residual = adjustment.residuals[i] as number;
    return {
      id: o.id,
      text: o.text,
      kind: o.kind,
      measures: o.measures,
      value: o.value,
      fitted: o.value - residual,
      residual,
      sigma: o.sigma,
      standardized: wOf(adjustment, i),
      redundancy: adjustment.redundancy[i] as number,
      detectable: detectableError(o.sigma, adjustment.redundancy[i] as number),
    };
  });

/**
 * Chance that at least one sound reading is called suspect: readings that share one |w| raise one alarm between them.
 */
export const falseAlarmOf = (readings: readonly FittedReading[]): number => {
  const ws = readings.flatMap((r) => (r.standardized === null ? [] : [Math.abs(r.standardized)])).sort((a, b) => a - b);
  const apart = ws.filter((w, i) => i === 0 || !isTied(w, ws[i - 1] ?? 0)).length;
  return 1 - Math.pow(1 - ALPHA, apart);
};
