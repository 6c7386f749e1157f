import { MM_PER_INCH, once } from '@fayplate/core';
import { type Drill, drills, inchDrills, millimetreDrills } from '../drills/list.js';
import { nearestDrill } from '../drills/list.js';
import { standardTolerance } from '../fits/grades.js';
import type { Thread } from '../threads/forms.js';
import { b1828 } from './tables.js';
import { iso273 } from './tables.js';

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

/** The listed size, else the next larger one (beyond the list the largest), whose allowance is then added to the thread's own diameter. */
const basis = (list: readonly Listed[], major: number): Listed => {
  const found = list.find((l) => l.major >= major - 1e-6) ?? list.at(-1);
  if (found === undefined) throw new RangeError('no clearance holes are listed');
  return found;
};

/**
 * Clearance hole for a thread: ISO 273 fine, medium and coarse for metric threads, ASME B18.2.8 close, normal and loose for
 * unified. No standard read covers BSW, BSF and BA: inch sizes take the B18.2.8 hole of the same diameter, BA the
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
      : `common practice: ${exact ? 'the hole of the same diameter' : 'the allowance of the next larger size'} in ${inch ? 'ASME B18.2.8' : 'ISO 273'}`,
  };
};
