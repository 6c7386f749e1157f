import { MM_PER_INCH, once } from '@fayplate/core';
import { type Drill, drills, inchDrills, millimetreDrills, nearestDrill } from '../drills/list.js';
import { standardTolerance } from '../fits/deviations.js';
import type { Table } from '../source.js';
import type { Thread } from '../threads/forms.js';

/** Thread diameter and clearance holes fine, medium, coarse, mm. */
export const iso273: Table<readonly [major: number, fine: number, medium: number, coarse: number]> = {
  source:
    'ISO 273:1979, table: read in two places (EN 20273 as quoted in standards.py of a hole feature by J. ' +
    'Rheinländer, 2012; hardware lists). Lists that have 14, 16 and 18 for M12, M14 and M16 are BS 4186',
  rows: [
    [1.6, 1.7, 1.8, 2],
    [2, 2.2, 2.4, 2.6],
    [2.5, 2.7, 2.9, 3.1],
    [3, 3.2, 3.4, 3.6],
    [3.5, 3.7, 3.9, 4.2],
    [4, 4.3, 4.5, 4.8],
    [5, 5.3, 5.5, 5.8],
    [6, 6.4, 6.6, 7],
    [7, 7.4, 7.6, 8],
    [8, 8.4, 9, 10],
    [10, 10.5, 11, 12],
    [12, 13, 13.5, 14.5],
    [14, 15, 15.5, 16.5],
    [16, 17, 17.5, 18.5],
    [18, 19, 20, 21],
    [20, 21, 22, 24],
    [22, 23, 24, 26],
    [24, 25, 26, 28],
    [27, 28, 30, 32],
    [30, 31, 33, 35],
    [33, 34, 36, 38],
    [36, 37, 39, 42],
    [39, 40, 42, 45],
    [42, 43, 45, 48],
    [45, 46, 48, 52],
    [48, 50, 52, 56],
    [52, 54, 56, 62],
    [56, 58, 62, 66],
    [60, 62, 66, 70],
    [64, 66, 70, 74],
  ],
};

/** Size, its diameter in inches, and the drills for close, normal and loose holes. */
export const b1828: Table<readonly [size: string, major: number, close: string, normal: string, loose: string]> = {
  source:
    'ASME B18.2.8-1999, table 1: all of it read in bd_warehouse, data/clearance_hole_sizes.csv; normal to 7/16 and ' +
    'loose in Machinery’s Handbook, 31st ed., p. 1741, table 1a, as well',
  rows: [
    ['#0', 0.06, '#51', '#48', '3/32'],
    ['#1', 0.073, '#46', '#43', '#37'],
    ['#2', 0.086, '3/32', '#38', '#32'],
    ['#3', 0.099, '#36', '#32', '#30'],
    ['#4', 0.112, '#31', '#30', '#27'],
    ['#5', 0.125, '9/64', '5/32', '11/64'],
    ['#6', 0.138, '#23', '#18', '#13'],
    ['#8', 0.164, '#15', '#9', '#3'],
    ['#10', 0.19, '#5', '#2', 'B'],
    ['1/4', 0.25, '17/64', '9/32', '19/64'],
    ['5/16', 0.3125, '21/64', '11/32', '23/64'],
    ['3/8', 0.375, '25/64', '13/32', '27/64'],
    ['7/16', 0.4375, '29/64', '15/32', '31/64'],
    ['1/2', 0.5, '17/32', '9/16', '39/64'],
    ['5/8', 0.625, '21/32', '11/16', '47/64'],
    ['3/4', 0.75, '25/32', '13/16', '29/32'],
    ['7/8', 0.875, '29/32', '15/16', '1 1/32'],
    ['1', 1, '1 1/32', '1 3/32', '1 5/32'],
    ['1 1/8', 1.125, '1 5/32', '1 7/32', '1 5/16'],
    ['1 1/4', 1.25, '1 9/32', '1 11/32', '1 7/16'],
    ['1 3/8', 1.375, '1 7/16', '1 1/2', '1 39/64'],
    ['1 1/2', 1.5, '1 9/16', '1 5/8', '1 47/64'],
  ],
};

/** Fine, medium and coarse of ISO 273; close, normal and loose of ASME B18.2.8. */
export type ClearanceFit = 'close' | 'normal' | 'loose';
/** The three fits, closest first. */
export const clearanceFits: readonly ClearanceFit[] = ['close', 'normal', 'loose'];

/** The hole that a screw passes, mm. */
export interface ClearanceHole {
  readonly fit: ClearanceFit;
  /** Least diameter, mm. */
  readonly diameter: number;
  /** Greatest diameter that the standard's tolerance class allows, mm. */
  readonly most: number;
  /** The nearest drill not below `diameter`; null where the hole is larger than any drill and is bored. */
  readonly drill: Drill | null;
  readonly source: string;
}

/** H12, H13 and H14 in both standards. */
const grade: Readonly<Record<ClearanceFit, number>> = { close: 12, normal: 13, loose: 14 };

interface Listed {
  readonly major: number;
  readonly holes: Readonly<Record<ClearanceFit, number>>;
}

const named = (name: string): number => {
  const d = drills().find((x) => x.name === name);
  if (d === undefined) throw new RangeError(`no drill ${name}`);
  return d.diameter;
};

const metricList = once((): readonly Listed[] =>
  iso273.rows.map(([major, close, normal, loose]) => ({ major, holes: { close, normal, loose } })),
);
const inchList = once((): readonly Listed[] =>
  b1828.rows.map(([, major, close, normal, loose]) => ({
    major: major * MM_PER_INCH,
    holes: { close: named(close), normal: named(normal), loose: named(loose) },
  })),
);

/**
 * The listed size, else the next larger one (beyond the list the largest), whose allowance is then added to the
 * thread's own diameter.
 */
const basis = (list: readonly Listed[], major: number): Listed => {
  const found = list.find((l) => l.major >= major - 1e-6) ?? list.at(-1);
  if (found === undefined) throw new RangeError('no clearance holes are listed');
  return found;
};

/**
 * Clearance hole for a thread: ISO 273 fine, medium and coarse for metric threads, ASME B18.2.8 close, normal and loose
 * for unified. No standard read covers BSW, BSF and BA: inch sizes take the B18.2.8 hole of the same diameter, BA the
 * allowance that ISO 273 gives the next larger size; so do sizes between those listed.
 */
export const clearanceHole = (thread: Thread, fit: ClearanceFit): ClearanceHole => {
  const inch = thread.form === 'unified' || thread.form === 'whitworth' || thread.form === 'cycle';
  const listed = basis(inch ? inchList() : metricList(), thread.major);
  const exact = Math.abs(listed.major - thread.major) < 1e-6;
  const diameter = exact ? listed.holes[fit] : thread.major + listed.holes[fit] - listed.major;
  const own = inch ? inchDrills() : millimetreDrills();
  const drill =
    (nearestDrill(diameter, own, 'at least') ?? nearestDrill(diameter, drills(), 'at least'))?.drill ?? null;
  const standard = inch ? b1828.source : iso273.source;
  const covered = exact && (thread.form === 'unified' || thread.form === 'metric');
  return {
    fit,
    diameter,
    most: diameter + (standardTolerance(grade[fit], diameter) ?? 0),
    drill,
    source: covered
      ? standard
      : `common practice: ${exact ? 'the hole of the same diameter' : 'the allowance of the next larger size'} in ` +
        (inch ? 'ASME B18.2.8' : 'ISO 273'),
  };
};
