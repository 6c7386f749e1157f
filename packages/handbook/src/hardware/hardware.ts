import { DEGREE, MM_PER_INCH } from '@fayplate/core';
import { baNuts, oldWhitworthNuts, whitworthNuts } from './british.js';
import { inchCapScrews, inchCountersunk, inchNuts, inchWashers } from './inch.js';
import { metricCapScrews, metricCountersunk, metricNuts, metricWashers } from './metric.js';
import { type Source } from '../source.js';
import { type Thread } from '../threads/forms.js';

/** Lengths mm; `acrossCorners` is of a nut with sharp corners, so never less than the real one. */
export interface Nut {
  readonly acrossFlats: number;
  readonly acrossCorners: number;
  readonly height: number;
  readonly socket: SocketRoom;
  readonly source: Source;
}

/** A socket head cap screw, mm. */
export interface CapScrew {
  readonly head: number;
  readonly height: number;
  readonly key: number;
  /** Diameter of the counterbore that takes the head. */
  readonly counterbore: number;
  readonly source: Source;
}

/** A flat-head socket screw, mm. */
export interface CountersunkScrew {
  /** Diameter at the sharp edge: the mouth that a countersink must have for the head to lie flush. */
  readonly head: number;
  readonly height: number;
  /** Included, radians. */
  readonly angle: number;
  readonly source: Source;
}

/** A plain washer, mm. */
export interface Washer {
  readonly hole: number;
  readonly outside: number;
  readonly thickness: number;
  readonly source: Source;
}

/** What goes with a thread; null where the tables have none of that size. */
export interface Hardware {
  readonly nut: Nut | null;
  /** A BSW nut made before 1940, a size larger across flats; null for every other thread. */
  readonly oldNut: Nut | null;
  readonly capScrew: CapScrew | null;
  readonly countersunk: CountersunkScrew | null;
  readonly washer: Washer | null;
}

const nutOf = (acrossFlats: number, height: number, source: Source): Nut => ({
  acrossFlats,
  acrossCorners: (acrossFlats * 2) / Math.sqrt(3),
  height,
  socket: socketRoom(acrossFlats),
  source,
});

/** The row of a diameter; `unit` is mm per unit of the table. */
const rowOf = <R extends readonly [number, ...number[]]>(
  rows: readonly R[],
  major: number,
  unit: number,
): R | undefined => rows.find(([d]) => Math.abs(d * unit - major) < 1e-6);

const nut = (t: Thread): Nut | null => {
  if (t.series === 'G' || t.series === 'BSC' || t.series === 'brass') return null;
  if (t.form === 'BA') {
    const row = baNuts.rows.find(([n]) => t.name === `${n} BA`);
    return row === undefined ? null : nutOf(row[1] * MM_PER_INCH, 0.9 * t.major, baNuts.source);
  }
  const [table, unit] =
    t.form === 'metric'
      ? ([metricNuts, 1] as const)
      : ([t.form === 'whitworth' ? whitworthNuts : inchNuts, MM_PER_INCH] as const);
  const row = rowOf(table.rows, t.major, unit);
  return row === undefined ? null : nutOf(row[1] * unit, row[2] * unit, table.source);
};

const oldNut = (t: Thread): Nut | null => {
  const row = t.series === 'BSW' ? rowOf(oldWhitworthNuts.rows, t.major, MM_PER_INCH) : undefined;
  return row === undefined ? null : nutOf(row[1] * MM_PER_INCH, row[2] * MM_PER_INCH, oldWhitworthNuts.source);
};

/** Unified sizes; BSW and BSF cap and flat heads differ and are not listed. */
const unitOf = (t: Thread): number | null => (t.form === 'metric' ? 1 : t.form === 'unified' ? MM_PER_INCH : null);

const capScrew = (t: Thread, unit: number): CapScrew | null => {
  const table = t.form === 'metric' ? metricCapScrews : inchCapScrews;
  const row = rowOf(table.rows, t.major, unit);
  if (row === undefined) return null;
  const [, head, height, key, counterbore] = row;
  return {
    head: head * unit,
    height: height * unit,
    key: key * unit,
    counterbore: counterbore * unit,
    source: table.source,
  };
};

const countersunk = (t: Thread, unit: number): CountersunkScrew | null => {
  const table = t.form === 'metric' ? metricCountersunk : inchCountersunk;
  const row = rowOf(table.rows, t.major, unit);
  if (row === undefined) return null;
  return {
    head: row[1] * unit,
    height: row[2] * unit,
    angle: (t.form === 'metric' ? 90 : 82) * DEGREE,
    source: table.source,
  };
};

/** The washer of the same size; for BSW, BSF and BA the smallest that goes over the thread. */
const washer = (t: Thread): Washer | null => {
  const inch = t.form === 'unified' || t.form === 'whitworth';
  const table = inch ? inchWashers : metricWashers;
  const unit = inch ? MM_PER_INCH : 1;
  const row =
    rowOf(table.rows, t.major, unit) ??
    (unitOf(t) === null ? table.rows.find(([, hole]) => hole * unit > t.major) : undefined);
  if (row === undefined) return null;
  const own = Math.abs(row[0] * unit - t.major) < 1e-6 && unitOf(t) !== null;
  return {
    hole: row[1] * unit,
    outside: row[2] * unit,
    thickness: row[3] * unit,
    source: own ? table.source : `common practice: the smallest washer that goes over it, ${table.source}`,
  };
};

/** Nut, cap screw, countersunk screw and washer of a thread. */
export const hardware = (thread: Thread): Hardware => {
  const unit = unitOf(thread);
  return {
    nut: nut(thread),
    oldNut: oldNut(thread),
    capScrew: unit === null ? null : capScrew(thread, unit),
    countersunk: unit === null ? null : countersunk(thread, unit),
    washer: washer(thread),
  };
};

/** Room for a hand socket on a nut, mm. */
export interface SocketRoom {
  /** Outside diameter of the socket's working end. */
  readonly diameter: number;
  readonly source: string;
}

/**
 * Greatest outside diameter of a hand socket by the nut's width across flats, mm: about 1.25 s + 3, + 4 above 32 mm.
 */
export const socketRoom = (acrossFlats: number): SocketRoom => ({
  diameter: 1.25 * acrossFlats + (acrossFlats > 32 ? 4 : 3),
  source: 'a straight line through the greatest socket diameters of ISO 2725-1, from memory',
});
