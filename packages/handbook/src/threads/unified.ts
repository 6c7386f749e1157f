import type { Table } from '../source.js';

/** Size as written, major diameter in inches, threads to the inch (null: none in that series). */
interface UnifiedRow {
  readonly size: string;
  readonly major: number;
  readonly unc: number | null;
  readonly unf: number | null;
}

const row = (size: string, major: number, unc: number | null, unf: number | null): UnifiedRow => ({
  size,
  major,
  unc,
  unf,
});

export const unifiedTable: Table<UnifiedRow> = {
  source: 'ASME B1.1: #0 to 1 1/2 in read in two places, larger sizes from memory',
  rows: [
    row('#0', 0.06, null, 80),
    row('#1', 0.073, 64, 72),
    row('#2', 0.086, 56, 64),
    row('#3', 0.099, 48, 56),
    row('#4', 0.112, 40, 48),
    row('#5', 0.125, 40, 44),
    row('#6', 0.138, 32, 40),
    row('#8', 0.164, 32, 36),
    row('#10', 0.19, 24, 32),
    row('#12', 0.216, 24, 28),
    row('1/4', 0.25, 20, 28),
    row('5/16', 0.3125, 18, 24),
    row('3/8', 0.375, 16, 24),
    row('7/16', 0.4375, 14, 20),
    row('1/2', 0.5, 13, 20),
    row('9/16', 0.5625, 12, 18),
    row('5/8', 0.625, 11, 18),
    row('3/4', 0.75, 10, 16),
    row('7/8', 0.875, 9, 14),
    row('1', 1, 8, 12),
    row('1 1/8', 1.125, 7, 12),
    row('1 1/4', 1.25, 7, 12),
    row('1 3/8', 1.375, 6, 12),
    row('1 1/2', 1.5, 6, 12),
    row('1 3/4', 1.75, 5, null),
    row('2', 2, 4.5, null),
    row('2 1/4', 2.25, 4.5, null),
    row('2 1/2', 2.5, 4, null),
    row('2 3/4', 2.75, 4, null),
    row('3', 3, 4, null),
    row('3 1/4', 3.25, 4, null),
    row('3 1/2', 3.5, 4, null),
    row('3 3/4', 3.75, 4, null),
    row('4', 4, 4, null),
  ],
};

/** 1-14 is no UNF but is sold beside it; its tap drill is often printed against 1-12 by mistake. */
export const unifiedSpecial: Table<{ readonly size: string; readonly major: number; readonly tpi: number }> = {
  source: 'ASME B1.1, UNS: from memory',
  rows: [{ size: '1', major: 1, tpi: 14 }],
};

/** Extra fine, to 1 1/2 in. */
export const unefTable: Table<readonly [size: string, major: number, tpi: number]> = {
  source: 'ASME B1.1, UNEF: from memory',
  rows: [
    ['#12', 0.216, 32],
    ['1/4', 0.25, 32],
    ['5/16', 0.3125, 32],
    ['3/8', 0.375, 32],
    ['7/16', 0.4375, 28],
    ['1/2', 0.5, 28],
    ['9/16', 0.5625, 24],
    ['5/8', 0.625, 24],
    ['11/16', 0.6875, 24],
    ['3/4', 0.75, 20],
    ['13/16', 0.8125, 20],
    ['7/8', 0.875, 20],
    ['15/16', 0.9375, 20],
    ['1', 1, 20],
    ['1 1/8', 1.125, 18],
    ['1 1/4', 1.25, 18],
    ['1 3/8', 1.375, 18],
    ['1 1/2', 1.5, 18],
  ],
};
