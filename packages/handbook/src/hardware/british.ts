import type { Table } from '../source.js';

/** Thread diameter, greatest width across flats, greatest height, inches: BSW and BSF nuts of the BS 1083 sizes. */
export const whitworthNuts: Table<readonly [major: number, acrossFlats: number, height: number]> = {
  source:
    'BS 1083 ordinary nuts (since 1940), 1/4 to 1 1/2 read in two places; 9/32, 11/16 and sizes below 1/4 as ' +
    'customary, from memory. A BSW nut made before 1940 is a size larger',
  rows: [
    [1 / 8, 0.248, 0.125],
    [3 / 16, 0.324, 0.167],
    [7 / 32, 0.413, 0.19],
    [1 / 4, 0.445, 0.2],
    [9 / 32, 0.525, 0.225],
    [5 / 16, 0.525, 0.25],
    [3 / 8, 0.6, 0.312],
    [7 / 16, 0.71, 0.375],
    [1 / 2, 0.82, 0.437],
    [9 / 16, 0.92, 0.5],
    [5 / 8, 1.01, 0.562],
    [11 / 16, 1.1, 0.625],
    [3 / 4, 1.2, 0.687],
    [7 / 8, 1.3, 0.75],
    [1, 1.48, 0.875],
    [1.125, 1.67, 1],
    [1.25, 1.86, 1.125],
    [1.375, 2.05, 1.25],
    [1.5, 2.22, 1.375],
  ],
};

/**
 * BSW nuts before 1940: the hexagon of the next size up, and as high as the thread is thick. BSF nuts had the smaller
 * hexagon all along, which BSW took over in 1940 to save steel.
 */
export const oldWhitworthNuts: Table<readonly [major: number, acrossFlats: number, height: number]> = {
  source: 'BS 190 and BS 28 black nuts (before 1940), from memory: measure the nut',
  rows: [
    [1 / 4, 0.525, 1 / 4],
    [5 / 16, 0.6, 5 / 16],
    [3 / 8, 0.71, 3 / 8],
    [7 / 16, 0.82, 7 / 16],
    [1 / 2, 0.92, 1 / 2],
    [9 / 16, 1.01, 9 / 16],
    [5 / 8, 1.1, 5 / 8],
    [11 / 16, 1.2, 11 / 16],
    [3 / 4, 1.3, 3 / 4],
    [7 / 8, 1.48, 7 / 8],
    [1, 1.67, 1],
    [1.125, 1.86, 1.125],
    [1.25, 2.05, 1.25],
    [1.5, 2.41, 1.5],
  ],
};

/** BA number, greatest width across flats, inches; height 0.9 of the thread's diameter. */
export const baNuts: Table<readonly [number: number, acrossFlats: number]> = {
  source: 'BS 57 nuts, from memory; height 0.9 d',
  rows: [
    [0, 0.413],
    [1, 0.365],
    [2, 0.324],
    [3, 0.282],
    [4, 0.248],
    [5, 0.22],
    [6, 0.193],
    [7, 0.172],
    [8, 0.152],
    [9, 0.131],
    [10, 0.117],
    [11, 0.103],
    [12, 0.09],
  ],
};
