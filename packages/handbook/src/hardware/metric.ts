import type { Table } from '../source.js';

/** Thread diameter, width across flats, greatest height, mm. */
export const metricNuts: Table<readonly [major: number, acrossFlats: number, height: number]> = {
  source: 'ISO 4032, read in three places (M7 as DIN 934, from memory)',
  rows: [
    [1.6, 3.2, 1.3],
    [2, 4, 1.6],
    [2.5, 5, 2],
    [3, 5.5, 2.4],
    [3.5, 6, 2.8],
    [4, 7, 3.2],
    [5, 8, 4.7],
    [6, 10, 5.2],
    [7, 11, 5.5],
    [8, 13, 6.8],
    [10, 16, 8.4],
    [12, 18, 10.8],
    [14, 21, 12.8],
    [16, 24, 14.8],
    [18, 27, 15.8],
    [20, 30, 18],
    [22, 34, 19.4],
    [24, 36, 21.5],
    [27, 41, 23.8],
    [30, 46, 25.6],
    [33, 50, 28.7],
    [36, 55, 31],
    [39, 60, 33.4],
  ],
};

/** Thread diameter, head diameter (plain), head height, key, counterbore diameter, mm. */
export const metricCapScrews: Table<
  readonly [major: number, head: number, height: number, key: number, counterbore: number]
> = {
  source:
    'ISO 4762, heads read in three places; counterbores DIN 974-1:1991, row 1, read in standards.py of a hole ' +
    'feature by J. Rheinländer, 2012 (after Klein, Einführung in die DIN-Normen, 14th ed.), M3 to M24 in a second; ' +
    'for M27 some lists have 43',
  rows: [
    [1.6, 3, 1.6, 1.5, 3.5],
    [2, 3.8, 2, 1.5, 4.4],
    [2.5, 4.5, 2.5, 2, 5.5],
    [3, 5.5, 3, 2.5, 6.5],
    [4, 7, 4, 3, 8],
    [5, 8.5, 5, 4, 10],
    [6, 10, 6, 5, 11],
    [8, 13, 8, 6, 15],
    [10, 16, 10, 8, 18],
    [12, 18, 12, 10, 20],
    [14, 21, 14, 12, 24],
    [16, 24, 16, 14, 26],
    [18, 27, 18, 14, 30],
    [20, 30, 20, 17, 33],
    [22, 33, 22, 17, 36],
    [24, 36, 24, 19, 40],
    [27, 40, 27, 19, 46],
    [30, 45, 30, 22, 50],
    [36, 54, 36, 27, 58],
  ],
};

/** Thread diameter, theoretical head diameter at the sharp edge, head height, mm; 90°. */
export const metricCountersunk: Table<readonly [major: number, head: number, height: number]> = {
  source: 'ISO 10642, read in three places (M14 from memory)',
  rows: [
    [3, 6.72, 1.86],
    [4, 8.96, 2.48],
    [5, 11.2, 3.1],
    [6, 13.44, 3.72],
    [8, 17.92, 4.96],
    [10, 22.4, 6.2],
    [12, 26.88, 7.44],
    [14, 30.8, 8.4],
    [16, 33.6, 8.8],
    [20, 40.32, 10.16],
  ],
};

/** Thread diameter, hole, outside diameter, thickness, mm. */
export const metricWashers: Table<readonly [major: number, hole: number, outside: number, thickness: number]> = {
  source:
    'ISO 7089:2000, table 1: to M36 read in two places (FastenersWB, iso7089def.csv; cq_warehouse, ' +
    'plain_washer_parameters.csv); M3.5, M14, M18, M22, M27 and ' +
    'M33 in the second alone; M39 from memory, 40 in DIN 125',
  rows: [
    [1.6, 1.7, 4, 0.3],
    [2, 2.2, 5, 0.3],
    [2.5, 2.7, 6, 0.5],
    [3, 3.2, 7, 0.5],
    [3.5, 3.7, 8, 0.5],
    [4, 4.3, 9, 0.8],
    [5, 5.3, 10, 1],
    [6, 6.4, 12, 1.6],
    [8, 8.4, 16, 1.6],
    [10, 10.5, 20, 2],
    [12, 13, 24, 2.5],
    [14, 15, 28, 2.5],
    [16, 17, 30, 3],
    [18, 19, 34, 3],
    [20, 21, 37, 3],
    [22, 23, 39, 3],
    [24, 25, 44, 4],
    [27, 28, 50, 4],
    [30, 31, 56, 4],
    [33, 34, 60, 5],
    [36, 37, 66, 5],
    [39, 42, 72, 6],
  ],
};
