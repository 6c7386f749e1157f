import type { Table } from '../source.js';

/** Sizes run up in steps: from, to and step in the table's unit, the first row's `from` included. */
export interface Run {
  readonly from: number;
  readonly to: number;
  readonly step: number;
}

/** In inches. */
export const fractionalDrills: Table<Run> = {
  source: 'ASME B94.11M: sixty-fourths to 1 3/4 in, thirty-seconds to 2 1/4 in, sixteenths to 3 1/2 in, from memory',
  rows: [
    { from: 1 / 64, to: 1.75, step: 1 / 64 },
    { from: 1.75, to: 2.25, step: 1 / 32 },
    { from: 2.25, to: 3.5, step: 1 / 16 },
  ],
};

/** In mm; 0.05 steps go on at the quarters between 3 and 14. */
export const metricDrills: Table<Run> = {
  source: 'ISO 235 preferred sizes, from memory',
  rows: [
    { from: 0.3, to: 3, step: 0.05 },
    { from: 3, to: 14, step: 0.1 },
    { from: 3.25, to: 13.75, step: 0.5 },
    { from: 14, to: 32, step: 0.25 },
    { from: 32, to: 50, step: 0.5 },
    { from: 50, to: 100, step: 1 },
  ],
};
