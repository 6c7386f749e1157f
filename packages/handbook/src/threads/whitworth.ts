import type { Table } from '../source.js';

/** Nominal size (the major diameter) in inches as written, and threads to the inch. */
export interface WhitworthRow {
  readonly size: string;
  readonly tpi: number;
}

const row = (size: string, tpi: number): WhitworthRow => ({ size, tpi });

export const bswTable: Table<WhitworthRow> = {
  source: 'BS 84, BSW: 1/8 to 1 in read in two places, the rest from memory',
  rows: [
    row('1/16', 60),
    row('3/32', 48),
    row('1/8', 40),
    row('5/32', 32),
    row('3/16', 24),
    row('7/32', 24),
    row('1/4', 20),
    row('5/16', 18),
    row('3/8', 16),
    row('7/16', 14),
    row('1/2', 12),
    row('9/16', 12),
    row('5/8', 11),
    row('11/16', 11),
    row('3/4', 10),
    row('7/8', 9),
    row('1', 8),
    row('1 1/8', 7),
    row('1 1/4', 7),
    row('1 1/2', 6),
    row('1 3/4', 5),
    row('2', 4.5),
  ],
};

export const bsfTable: Table<WhitworthRow> = {
  source: 'BS 84, BSF: 3/16 to 1 in read in two places, the rest from memory',
  rows: [
    row('3/16', 32),
    row('7/32', 28),
    row('1/4', 26),
    row('9/32', 26),
    row('5/16', 22),
    row('3/8', 20),
    row('7/16', 18),
    row('1/2', 16),
    row('9/16', 16),
    row('5/8', 14),
    row('11/16', 14),
    row('3/4', 12),
    row('7/8', 11),
    row('1', 10),
    row('1 1/8', 9),
    row('1 1/4', 9),
    row('1 3/8', 8),
    row('1 1/2', 8),
  ],
};
