import { type Table } from '../source.js';

/** Nominal size (the major diameter) in inches as written, and threads to the inch. */
interface WhitworthRow {
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

/** Cycle threads; 26 to the inch from 7/32 on. */
export const bscTable: Table<WhitworthRow> = {
  source: 'BS 811, cycle threads: from memory',
  rows: [
    row('1/8', 40),
    row('5/32', 32),
    row('3/16', 32),
    row('7/32', 26),
    row('1/4', 26),
    row('9/32', 26),
    row('5/16', 26),
    row('3/8', 26),
    row('7/16', 26),
    row('1/2', 26),
    row('9/16', 26),
    row('5/8', 26),
    row('11/16', 26),
    row('3/4', 26),
  ],
};

/** Brass threads: 26 to the inch of Whitworth form whatever the diameter. */
export const brassTable: Table<WhitworthRow> = {
  source: 'British brass thread, 26 to the inch, Whitworth form: common practice, sizes from memory',
  rows: ['1/8', '3/16', '1/4', '5/16', '3/8', '7/16', '1/2', '9/16', '5/8', '3/4', '7/8', '1'].map((s) => row(s, 26)),
};

/** Number, pitch, major diameter and depth of thread on one side, mm. */
interface BaRow {
  readonly number: number;
  readonly pitch: number;
  readonly major: number;
  readonly depth: number;
}

const ba = (number: number, pitch: number, major: number, depth: number): BaRow => ({ number, pitch, major, depth });

/** p = 0.9ⁿ and D = 6 p^1.2 of the unrounded p, to two figures; depth 0.6 p to 0.005 mm. */
export const baTable: Table<BaRow> = {
  source: 'BS 93, BA: read in two places',
  rows: [
    ba(0, 1, 6, 0.6),
    ba(1, 0.9, 5.3, 0.54),
    ba(2, 0.81, 4.7, 0.485),
    ba(3, 0.73, 4.1, 0.44),
    ba(4, 0.66, 3.6, 0.395),
    ba(5, 0.59, 3.2, 0.355),
    ba(6, 0.53, 2.8, 0.32),
    ba(7, 0.48, 2.5, 0.29),
    ba(8, 0.43, 2.2, 0.26),
    ba(9, 0.39, 1.9, 0.235),
    ba(10, 0.35, 1.7, 0.21),
    ba(11, 0.31, 1.5, 0.185),
    ba(12, 0.28, 1.3, 0.17),
    ba(13, 0.25, 1.2, 0.15),
    ba(14, 0.23, 1, 0.14),
    ba(15, 0.21, 0.9, 0.125),
    ba(16, 0.19, 0.79, 0.115),
  ],
};
