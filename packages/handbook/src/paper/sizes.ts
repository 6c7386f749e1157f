import type { Table } from '../source.js';

/** Short side and long side, mm. */
export const isoPaper: Table<readonly [name: string, short: number, long: number]> = {
  source: 'ISO 216: A5 to A2 read in two places, A1 and A0 from memory',
  rows: [
    ['A5', 148, 210],
    ['A4', 210, 297],
    ['A3', 297, 420],
    ['A2', 420, 594],
    ['A1', 594, 841],
    ['A0', 841, 1189],
  ],
};

/** Short side and long side, inches. */
export const inchPaper: Table<readonly [name: string, short: number, long: number]> = {
  source: 'ASME Y14.1: A to D, Letter and Legal read in two places, E from memory',
  rows: [
    ['Letter', 8.5, 11],
    ['Legal', 8.5, 14],
    ['Tabloid', 11, 17],
    ['ANSI A', 8.5, 11],
    ['ANSI B', 11, 17],
    ['ANSI C', 17, 22],
    ['ANSI D', 22, 34],
    ['ANSI E', 34, 44],
  ],
};
