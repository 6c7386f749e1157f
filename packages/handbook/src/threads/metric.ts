import type { Table } from '../source.js';

/** Major diameter and pitches, mm; `coarse` null where the size has fine pitches only. */
interface MetricRow {
  readonly major: number;
  readonly coarse: number | null;
  readonly fine: readonly number[];
}

const row = (major: number, coarse: number | null, ...fine: number[]): MetricRow => ({ major, coarse, fine });

export const metricTable: Table<MetricRow> = {
  source: 'ISO 261: M2 to M24 coarse read in two places, the rest from memory',
  rows: [
    row(1, 0.25, 0.2),
    row(1.1, 0.25, 0.2),
    row(1.2, 0.25, 0.2),
    row(1.4, 0.3, 0.2),
    row(1.6, 0.35, 0.2),
    row(1.8, 0.35, 0.2),
    row(2, 0.4, 0.25),
    row(2.2, 0.45, 0.25),
    row(2.5, 0.45, 0.35),
    row(3, 0.5, 0.35),
    row(3.5, 0.6, 0.35),
    row(4, 0.7, 0.5),
    row(4.5, 0.75, 0.5),
    row(5, 0.8, 0.5),
    row(6, 1, 0.75),
    row(7, 1, 0.75),
    row(8, 1.25, 1, 0.75),
    row(9, 1.25, 1, 0.75),
    row(10, 1.5, 1.25, 1, 0.75),
    row(11, 1.5, 1, 0.75),
    row(12, 1.75, 1.5, 1.25, 1),
    row(14, 2, 1.5, 1.25, 1),
    row(15, null, 1.5, 1),
    row(16, 2, 1.5, 1),
    row(17, null, 1.5, 1),
    row(18, 2.5, 2, 1.5, 1),
    row(20, 2.5, 2, 1.5, 1),
    row(22, 2.5, 2, 1.5, 1),
    row(24, 3, 2, 1.5, 1),
    row(25, null, 2, 1.5, 1),
    row(27, 3, 2, 1.5, 1),
    row(28, null, 2, 1.5, 1),
    row(30, 3.5, 3, 2, 1.5, 1),
    row(32, null, 2, 1.5),
    row(33, 3.5, 3, 2, 1.5),
    row(36, 4, 3, 2, 1.5),
    row(39, 4, 3, 2, 1.5),
    row(42, 4.5, 4, 3, 2, 1.5),
    row(45, 4.5, 4, 3, 2, 1.5),
    row(48, 5, 4, 3, 2, 1.5),
    row(52, 5, 4, 3, 2, 1.5),
    row(56, 5.5, 4, 3, 2, 1.5),
    row(60, 5.5, 4, 3, 2, 1.5),
    row(64, 6, 4, 3, 2, 1.5),
  ],
};
