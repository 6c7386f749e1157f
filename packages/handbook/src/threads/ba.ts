import type { Table } from '../source.js';

/** Number, pitch, major diameter and depth of thread on one side, mm. */
export interface BaRow {
  readonly number: number;
  readonly pitch: number;
  readonly major: number;
  readonly depth: number;
}

const row = (number: number, pitch: number, major: number, depth: number): BaRow => ({ number, pitch, major, depth });

/** p = 0.9ⁿ and D = 6 p^1.2 of the unrounded p, to two figures; depth 0.6 p to 0.005 mm. */
export const baTable: Table<BaRow> = {
  source: 'BS 93, BA: read in two places',
  rows: [
    row(0, 1, 6, 0.6),
    row(1, 0.9, 5.3, 0.54),
    row(2, 0.81, 4.7, 0.485),
    row(3, 0.73, 4.1, 0.44),
    row(4, 0.66, 3.6, 0.395),
    row(5, 0.59, 3.2, 0.355),
    row(6, 0.53, 2.8, 0.32),
    row(7, 0.48, 2.5, 0.29),
    row(8, 0.43, 2.2, 0.26),
    row(9, 0.39, 1.9, 0.235),
    row(10, 0.35, 1.7, 0.21),
    row(11, 0.31, 1.5, 0.185),
    row(12, 0.28, 1.3, 0.17),
    row(13, 0.25, 1.2, 0.15),
    row(14, 0.23, 1, 0.14),
    row(15, 0.21, 0.9, 0.125),
    row(16, 0.19, 0.79, 0.115),
  ],
};
