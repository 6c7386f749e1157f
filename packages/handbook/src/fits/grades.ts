import type { Table } from '../source.js';

/** Standard tolerances IT5 to IT14, µm, for nominal sizes over the row before's `to` up to and including this one, mm. */
export interface GradeRow {
  readonly to: number;
  readonly it: readonly number[];
}

export const firstGrade = 5;
const row = (to: number, ...it: number[]): GradeRow => ({ to, it });

/** ISO 286-1, standard tolerances by nominal size. */
export const gradeTable: Table<GradeRow> = {
  source: 'ISO 286-1: IT5 to IT9 read in two places, IT10 to IT14 in one, all held against the formula',
  rows: [
    row(3, 4, 6, 10, 14, 25, 40, 60, 100, 140, 250),
    row(6, 5, 8, 12, 18, 30, 48, 75, 120, 180, 300),
    row(10, 6, 9, 15, 22, 36, 58, 90, 150, 220, 360),
    row(18, 8, 11, 18, 27, 43, 70, 110, 180, 270, 430),
    row(30, 9, 13, 21, 33, 52, 84, 130, 210, 330, 520),
    row(50, 11, 16, 25, 39, 62, 100, 160, 250, 390, 620),
    row(80, 13, 19, 30, 46, 74, 120, 190, 300, 460, 740),
    row(120, 15, 22, 35, 54, 87, 140, 220, 350, 540, 870),
    row(180, 18, 25, 40, 63, 100, 160, 250, 400, 630, 1000),
    row(250, 20, 29, 46, 72, 115, 185, 290, 460, 720, 1150),
    row(315, 23, 32, 52, 81, 130, 210, 320, 520, 810, 1300),
    row(400, 25, 36, 57, 89, 140, 230, 360, 570, 890, 1400),
    row(500, 27, 40, 63, 97, 155, 250, 400, 630, 970, 1550),
  ],
};

/** The tolerance IT`grade` of a nominal size, mm; null outside IT5 to IT14 or 0 to 500 mm. */
export const standardTolerance = (grade: number, nominal: number): number | null => {
  if (!(nominal > 0)) return null;
  const micrometres = gradeTable.rows.find((r) => nominal <= r.to)?.it[grade - firstGrade];
  return micrometres === undefined ? null : micrometres / 1000;
};
