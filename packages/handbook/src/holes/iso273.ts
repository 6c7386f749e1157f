import type { Table } from '../source.js';

/** Thread diameter and clearance holes fine, medium, coarse, mm. */
export const iso273: Table<readonly [major: number, fine: number, medium: number, coarse: number]> = {
  source: 'ISO 273: M1.6 to M16 read, from M18 read as BS 4186, which agrees there',
  rows: [
    [1.6, 1.7, 1.8, 2],
    [2, 2.2, 2.4, 2.6],
    [2.5, 2.7, 2.9, 3.1],
    [3, 3.2, 3.4, 3.6],
    [3.5, 3.7, 3.9, 4.2],
    [4, 4.3, 4.5, 4.8],
    [5, 5.3, 5.5, 5.8],
    [6, 6.4, 6.6, 7],
    [7, 7.4, 7.6, 8],
    [8, 8.4, 9, 10],
    [10, 10.5, 11, 12],
    [12, 13, 13.5, 14.5],
    [14, 15, 15.5, 16.5],
    [16, 17, 17.5, 18.5],
    [18, 19, 20, 21],
    [20, 21, 22, 24],
    [22, 23, 24, 26],
    [24, 25, 26, 28],
    [27, 28, 30, 32],
    [30, 31, 33, 35],
    [33, 34, 36, 38],
    [36, 37, 39, 42],
    [39, 40, 42, 45],
  ],
};
