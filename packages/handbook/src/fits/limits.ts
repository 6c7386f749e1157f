import { deviationTable, gradeTable, jTable, pressTable, standardTolerance } from './deviations.js';

/** Limits of a size, mm: `least` and `most` are the sizes, `lower` and `upper` their deviations from the nominal. */
export interface FitLimits {
  readonly name: string;
  readonly nominal: number;
  readonly lower: number;
  readonly upper: number;
  readonly least: number;
  readonly most: number;
  readonly source: string;
}

type Letter = 'd' | 'e' | 'f' | 'g' | 'h' | 'j' | 'js' | 'k' | 'm' | 'n' | 'p' | 'r' | 's';
const loose = new Set<string>(['d', 'e', 'f', 'g']);

/** Fundamental deviation of a shaft, mm. */
const fundamental = (letter: Letter, grade: number, nominal: number): number | null => {
  if (letter === 'h' || letter === 'js') return 0;
  if (letter === 'j') {
    const row = grade < 5 || grade > 7 ? undefined : jTable.rows.find(([to]) => nominal <= to);
    return row === undefined ? null : row[grade === 7 ? 2 : 1] / 1000;
  }
  if (letter === 'r' || letter === 's') {
    const row = pressTable.rows.find((r) => nominal <= r.to);
    return row === undefined ? null : row[letter] / 1000;
  }
  const row = deviationTable.rows.find((r) => nominal <= r.to);
  if (row === undefined) return null;
  return letter === 'k' && grade > 7 ? 0 : row[letter] / 1000;
};

const shaft = (letter: Letter, grade: number, nominal: number, tolerance: number): readonly [number, number] | null => {
  if (letter === 'js') return [-tolerance / 2, tolerance / 2];
  const deviation = fundamental(letter, grade, nominal);
  if (deviation === null) return null;
  return letter === 'h' || loose.has(letter) ? [deviation - tolerance, deviation] : [deviation, deviation + tolerance];
};

/**
 * Holes mirror the shaft about the zero line, except that the tight ones are raised by Δ = IT(n) − IT(n − 1), so that a
 * hole and a shaft one grade finer make the same fit either way round. Grades 6 and 7 only for those; none at or below
 * 3 mm.
 */
const hole = (letter: Letter, grade: number, nominal: number, tolerance: number): readonly [number, number] | null => {
  const mirrored = shaft(letter, grade, nominal, tolerance);
  if (mirrored === null || letter === 'j') return null; // J holes have a table of their own, which no part here needs
  const [lower, upper] = [0 - mirrored[1], 0 - mirrored[0]];
  if (letter === 'h' || letter === 'js' || loose.has(letter)) return [lower, upper];
  if (grade !== 6 && grade !== 7) return null;
  const finer = standardTolerance(grade - 1, nominal);
  if (finer === null) return null;
  const raise = nominal <= 3 ? 0 : tolerance - finer;
  /** M6 of 250 to 315 mm is the standard's one exception, −9 µm in place of −11. */
  const odd = letter === 'm' && grade === 6 && nominal > 250 && nominal <= 315 ? 0.002 : 0;
  return [lower + raise + odd, upper + raise + odd];
};

const designation = /^(js|[d-hjkmnprs])(\d{1,2})$/i;

/**
 * Limits of `H7`, `g6`, `p6` … at a nominal size from above 0 to 500 mm: a capital letter is a hole, a small one a
 * shaft. j is held as a shaft of grades 5 to 7 alone. Null where the letter, grade or size is outside the tables.
 */
export const isoFit = (name: string, nominal: number): FitLimits | null => {
  const m = designation.exec(name.trim());
  if (m === null || !(nominal > 0) || nominal > 500) return null;
  const letters = m[1] ?? '';
  const isHole = letters === letters.toUpperCase();
  if (!isHole && letters !== letters.toLowerCase()) return null;
  const grade = Number(m[2]);
  const tolerance = standardTolerance(grade, nominal);
  if (tolerance === null) return null;
  const limits = (isHole ? hole : shaft)(letters.toLowerCase() as Letter, grade, nominal, tolerance);
  if (limits === null) return null;
  const [lower, upper] = limits;
  return {
    name: name.trim(),
    nominal,
    lower,
    upper,
    least: nominal + lower,
    most: nominal + upper,
    source: `${gradeTable.source}; ${deviationTable.source}`,
  };
};

/** A hole and a shaft of one nominal size, and the clearance between them. */
export interface FitPair {
  readonly hole: FitLimits;
  readonly shaft: FitLimits;
  /** Hole less shaft, mm; below zero the shaft is the larger. */
  readonly least: number;
  readonly most: number;
}

/** `H7/g6` at a nominal size: both limits and the clearance between them. Null where either is unknown. */
export const isoFitPair = (name: string, nominal: number): FitPair | null => {
  const [a = '', b, extra] = name.split('/');
  if (b === undefined || extra !== undefined) return null;
  const one = isoFit(a, nominal);
  const two = isoFit(b, nominal);
  if (one === null || two === null || /^[a-z]/.test(one.name) || /^[A-Z]/.test(two.name)) return null;
  return { hole: one, shaft: two, least: one.least - two.most, most: one.most - two.least };
};
