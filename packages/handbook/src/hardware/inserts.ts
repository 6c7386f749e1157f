import { MM_PER_INCH } from '@fayplate/core';
import { drills, inchDrills, millimetreDrills, nearestDrill } from '../drills/list.js';
import { isoFit } from '../fits/limits.js';
import type { Table } from '../source.js';
import type { Thread } from '../threads/forms.js';
import { classLimits } from '../threads/limits.js';

/** Diameters that hardened dowel pins are sold in, mm. */
export const metricDowels: Table<number> = {
  source: 'ISO 8734 (diameter m6), from memory',
  rows: [1, 1.5, 2, 2.5, 3, 4, 5, 6, 8, 10, 12, 16, 20],
};

/** Inches. */
export const inchDowels: Table<number> = {
  source: 'ASME B18.8.2 (standard series 0.0002 in over nominal, ± 0.0001 in), from memory',
  rows: [1 / 16, 3 / 32, 1 / 8, 3 / 16, 1 / 4, 5 / 16, 3 / 8, 7 / 16, 1 / 2, 5 / 8, 3 / 4, 7 / 8, 1],
};

/** Limits of a dowel's own diameter, mm, or null where no dowel of that nominal diameter (mm) is listed. */
export const dowelLimits = (
  diameter: number,
): { readonly least: number; readonly most: number; readonly source: string } | null => {
  if (metricDowels.rows.some((d) => Math.abs(d - diameter) < 1e-6)) {
    const limits = isoFit('m6', diameter);
    return limits === null ? null : { least: limits.least, most: limits.most, source: metricDowels.source };
  }
  return inchDowels.rows.some((d) => Math.abs(d * MM_PER_INCH - diameter) < 1e-4)
    ? { least: diameter + 0.0001 * MM_PER_INCH, most: diameter + 0.0003 * MM_PER_INCH, source: inchDowels.source }
    : null;
};

/** What a wire thread insert asks of its hole, mm. */
export interface WireInsert {
  /** The thread that is tapped for it: larger by the wire on either side, of the same pitch. */
  readonly tapped: Thread;
  readonly drill: { readonly name: string; readonly diameter: number };
  /** Least and most that the drilled hole may measure. */
  readonly limits: readonly [number, number];
  readonly source: string;
}

/** How much larger the tapped thread is than the bolt's, in pitches: twice 0.75 of the height of the sharp triangle. */
const LARGER = 1.299038;

const source =
  'thread for wire inserts: the bolt’s moved out by the wire, D + 1.299 P (DIN 8140-2, ASME B18.29.1 and B18.29.2M ' +
  'as read in two places); the drill nearest above its least minor diameter';

/** Hole and tap for a wire thread insert; null for a thread that is not of 60 degrees, for which none is held. */
export const wireInsert = (thread: Thread): WireInsert | null => {
  if (thread.form !== 'metric' && thread.form !== 'unified') return null;
  const by = LARGER * thread.pitch;
  const tapped: Thread = {
    ...thread,
    major: thread.major + by,
    pitchDiameter: thread.pitchDiameter + by,
    minor: thread.minor + by,
  };
  const { least, most } = classLimits(tapped).internal;
  const own = thread.form === 'unified' ? inchDrills() : millimetreDrills();
  const drill =
    [own, drills()]
      .map((list) => nearestDrill(least, list, 'at least')?.drill)
      .find((d) => d !== undefined && d.diameter <= most) ?? null;
  return drill === null ? null : { tapped, drill, limits: [least, most], source };
};
