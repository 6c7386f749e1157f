import { logChoose, logFactorial, logSum } from './length.js';

/** Prior chances of what a maker does, before any reading. Each table adds up to 1. */

/** How many groups a face is laid out in; none: nothing simple is meant. */
const groups: readonly number[] = [0.1, 0.5, 0.25, 0.1, 0.05];
export const MOST_GROUPS = groups.length - 1;
export const logAsMeasured = Math.log(groups[0] ?? 0);

/** Chance that a layout takes in every fastener; else one is left out with chance 1/2, two with 1/4 … */
const ALL_LAID = 0.7;

/** What kind of group it is. */
export const kinds = { divided: 0.6, circle: 0.02, mirrored: 0.03, array: 0.2, grid: 0.12, opposite: 0.03 } as const;

/**
 * What a circle or pattern is about: the face's centre, another bore or spigot (all of them together), or a centre of
 * its own.
 */
const about = { first: 0.8, other: 0.1, own: 0.1 } as const;

export const logAbout = (which: 'first' | 'other' | 'own', centres: number): number => {
  if (centres === 0) return 0;
  const others = centres - 1;
  const lost = others === 0 ? about.other : 0;
  if (which === 'other') return Math.log(about.other / Math.max(others, 1));
  return Math.log(about[which] / (1 - lost));
};

/** Chance that a direction is set to another one's division line, to the middle between two, or to neither. */
export const directions = { aligned: 0.35, straddling: 0.25, free: 0.4 } as const;

/**
 * Log prior of a partition of the fasteners into groups of these sizes with the rest left single: how many groups, how
 * many singles (`ALL_LAID`: none), sizes alike, and which feature in which group (a multinomial; the groups have no
 * order). Where the features are of several sorts (studs, dowels, threads), half of the prior goes to partitions that
 * keep each sort together.
 */
export const logPartition = (
  members: readonly (readonly number[])[],
  fasteners: readonly number[],
  sorts: readonly string[],
): number => {
  const n = fasteners.length;
  const m = members.length;
  const sizes = members.map((g) => g.length);
  const singles = n - sizes.reduce((a, b) => a + b, 0);
  const laid = n - singles;
  if (m === 0 || laid < m) return m === 0 ? logAsMeasured : Number.NEGATIVE_INFINITY;
  const bySingles = singles === 0 ? Math.log(ALL_LAID) : Math.log(1 - ALL_LAID) - singles * Math.log(2);
  const which = sizes.reduce((s, k) => s + logFactorial(k), 0) + logFactorial(singles) - logFactorial(n);
  const anyhow = bySingles - logChoose(laid - 1, m - 1) + which + logFactorial(m);
  const sortOf = (f: number): string => sorts[fasteners.indexOf(f)] ?? '';
  const all = new Set(sorts);
  const whole = [...all].every((sort) => {
    const those = fasteners.filter((f) => sortOf(f) === sort);
    return (
      those.length === 0 ||
      members.every((g) => those.every((f) => g.includes(f)) || those.every((f) => !g.includes(f)))
    );
  });
  const together = whole ? logFactorial(m) - all.size * Math.log(m + 1) : Number.NEGATIVE_INFINITY;
  const split = Math.log(0.5) + logSum([anyhow, together]);
  return Math.log(groups[m] ?? 0) + (all.size > 1 ? split : anyhow);
};

/** Chance that one hole of a regular layout was moved or has worn off its place. */
export const MOVED = 0.1;
/** A move within so many standard deviations of a centre cannot be told from none: there the density is flat. */
const HIDDEN = 3;

/**
 * Log prior density of a moved hole `away` mm from its place, per mm²: every size of move alike, from what the readings
 * hide (`sigma`: of the measured place in one direction, mm) to `most` mm; beyond that it is no move of that hole.
 * 1 / (π log(1 + most² / c²) (away² + c²)) with c = 3 sigma, which adds up to 1 over the disc.
 */
export const logMoved = (away: number, sigma: number, most: number): number => {
  const c2 = (HIDDEN * sigma) ** 2;
  return away > most
    ? Number.NEGATIVE_INFINITY
    : -Math.log(Math.PI * Math.log1p((most * most) / c2) * (away * away + c2));
};

/**
 * Chance that a layout was meant, but the holes were made by eye or rule and miss it everywhere by more than the
 * readings do. Such a face is counted as measured: its holes are where they are. It stands against taking chance
 * coincidences in a roughly regular pattern for a design.
 */
export const ROUGH = 0.03;

/** How far such holes miss, in standard deviations of a measured centre; each as likely. */
export const misses: readonly number[] = [4, 12, 36];
