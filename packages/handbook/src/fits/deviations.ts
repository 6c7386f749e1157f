import type { Table } from '../source.js';

/**
 * Standard tolerances IT5 to IT14, µm, for nominal sizes over the row before's `to` up to and including this one, mm.
 */
interface GradeRow {
  readonly to: number;
  readonly it: readonly number[];
}

const firstGrade = 5;
const grade = (to: number, ...it: number[]): GradeRow => ({ to, it });

/** ISO 286-1, standard tolerances by nominal size. */
export const gradeTable: Table<GradeRow> = {
  source: 'ISO 286-1: IT5 to IT9 read in two places, IT10 to IT14 in one, all held against the formula',
  rows: [
    grade(3, 4, 6, 10, 14, 25, 40, 60, 100, 140, 250),
    grade(6, 5, 8, 12, 18, 30, 48, 75, 120, 180, 300),
    grade(10, 6, 9, 15, 22, 36, 58, 90, 150, 220, 360),
    grade(18, 8, 11, 18, 27, 43, 70, 110, 180, 270, 430),
    grade(30, 9, 13, 21, 33, 52, 84, 130, 210, 330, 520),
    grade(50, 11, 16, 25, 39, 62, 100, 160, 250, 390, 620),
    grade(80, 13, 19, 30, 46, 74, 120, 190, 300, 460, 740),
    grade(120, 15, 22, 35, 54, 87, 140, 220, 350, 540, 870),
    grade(180, 18, 25, 40, 63, 100, 160, 250, 400, 630, 1000),
    grade(250, 20, 29, 46, 72, 115, 185, 290, 460, 720, 1150),
    grade(315, 23, 32, 52, 81, 130, 210, 320, 520, 810, 1300),
    grade(400, 25, 36, 57, 89, 140, 230, 360, 570, 890, 1400),
    grade(500, 27, 40, 63, 97, 155, 250, 400, 630, 970, 1550),
  ],
};

/** The tolerance IT`grade` of a nominal size, mm; null outside IT5 to IT14 or 0 to 500 mm. */
export const standardTolerance = (grade: number, nominal: number): number | null => {
  if (!(nominal > 0)) return null;
  const micrometres = gradeTable.rows.find((r) => nominal <= r.to)?.it[grade - firstGrade];
  return micrometres === undefined ? null : micrometres / 1000;
};

/** Fundamental deviations of shafts, µm: upper for d to g (below zero line), lower for k to s. */
interface DeviationRow {
  readonly to: number;
  readonly d: number;
  readonly e: number;
  readonly f: number;
  readonly g: number;
  readonly k: number;
  readonly m: number;
  readonly n: number;
  readonly p: number;
}

const row = (
  to: number,
  d: number,
  e: number,
  f: number,
  g: number,
  k: number,
  m: number,
  n: number,
  p: number,
): DeviationRow => ({
  to,
  d,
  e,
  f,
  g,
  k,
  m,
  n,
  p,
});

/** k holds for grades 4 to 7. */
export const deviationTable: Table<DeviationRow> = {
  source: 'ISO 286-1, fundamental deviations: read in a machine drawing textbook and a table of JIS B 0401',
  rows: [
    row(3, -20, -14, -6, -2, 0, 2, 4, 6),
    row(6, -30, -20, -10, -4, 1, 4, 8, 12),
    row(10, -40, -25, -13, -5, 1, 6, 10, 15),
    row(18, -50, -32, -16, -6, 1, 7, 12, 18),
    row(30, -65, -40, -20, -7, 2, 8, 15, 22),
    row(50, -80, -50, -25, -9, 2, 9, 17, 26),
    row(80, -100, -60, -30, -10, 2, 11, 20, 32),
    row(120, -120, -72, -36, -12, 3, 13, 23, 37),
    row(180, -145, -85, -43, -14, 3, 15, 27, 43),
    row(250, -170, -100, -50, -15, 4, 17, 31, 50),
    row(315, -190, -110, -56, -17, 4, 20, 34, 56),
    row(400, -210, -125, -62, -18, 4, 21, 37, 62),
    row(500, -230, -135, -68, -20, 5, 23, 40, 68),
  ],
};

/** j is not a multiple of anything: its lower deviation, µm, for grades 5 and 6 together and for grade 7. */
export const jTable: Table<readonly [to: number, five6: number, seven: number]> = {
  source: 'ISO 286-1, fundamental deviation j: from memory, 130 j6 (+14 −11) read in a motor catalogue',
  rows: [
    [3, -2, -4],
    [6, -2, -4],
    [10, -2, -5],
    [18, -3, -6],
    [30, -4, -8],
    [50, -5, -10],
    [80, -7, -12],
    [120, -9, -15],
    [180, -11, -18],
    [250, -13, -21],
    [315, -16, -26],
    [400, -18, -28],
    [500, -20, -32],
  ],
};

/** r and s have finer ranges from 50 mm up. */
export const pressTable: Table<{ readonly to: number; readonly r: number; readonly s: number }> = {
  source: 'ISO 286-1, fundamental deviations r and s: to 180 mm read in a machine drawing textbook, above from memory',
  rows: [
    [3, 10, 14],
    [6, 15, 19],
    [10, 19, 23],
    [18, 23, 28],
    [30, 28, 35],
    [50, 34, 43],
    [65, 41, 53],
    [80, 43, 59],
    [100, 51, 71],
    [120, 54, 79],
    [140, 63, 92],
    [160, 65, 100],
    [180, 68, 108],
    [200, 77, 122],
    [225, 80, 130],
    [250, 84, 140],
    [280, 94, 158],
    [315, 98, 170],
    [355, 108, 190],
    [400, 114, 208],
    [450, 126, 232],
    [500, 132, 252],
  ].map(([to = 0, r = 0, s = 0]) => ({ to, r, s })),
};
