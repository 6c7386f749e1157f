import type { FittedReading } from '../types.js';
import { ALPHA } from './critical.js';
import { isTied } from './w.js';

/** Chance that at least one sound reading is called suspect: readings that share one |w| raise one alarm between them. */
export const falseAlarmOf = (readings: readonly FittedReading[]): number => {
  const ws = readings.flatMap((r) => (r.standardized === null ? [] : [Math.abs(r.standardized)])).sort((a, b) => a - b);
  const apart = ws.filter((w, i) => i === 0 || !isTied(w, ws[i - 1] ?? 0)).length;
  return 1 - Math.pow(1 - ALPHA, apart);
};
