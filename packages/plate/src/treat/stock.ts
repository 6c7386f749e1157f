import type { Thread } from '@fayplate/handbook';
import { inchThread } from './thread.js';

/** Bolts and screws are stocked in these lengths, mm. Source: ISO 888, from memory. */
const metricLengths = [
  5, 6, 8, 10, 12, 16, 20, 25, 30, 35, 40, 45, 50, 55, 60, 65, 70, 80, 90, 100, 110, 120, 130, 140, 150, 160, 180, 200,
];
/** Eighths to an inch, quarters to four, halves to eight. Source: common practice. */
const inchLengths = [
  2, 3, 4, 5, 6, 7, 8, 10, 12, 14, 16, 18, 20, 22, 24, 26, 28, 30, 32, 36, 40, 44, 48, 52, 56, 60, 64,
].map((n) => (n * 25.4) / 8);

export const stockSource = 'ISO 888, from memory; inches common practice';

/** The shortest length under the head that is stocked within limits, mm; null where there is none. */
export const stockLength = (thread: Thread, least: number, most = Infinity): number | null =>
  (inchThread(thread) ? inchLengths : metricLengths).find((l) => l >= least - 1e-6 && l <= most + 1e-6) ?? null;
