import { MM_PER_INCH } from '@fayplate/core';
import { type Table } from '../source.js';
import { type Thread } from './forms.js';
import { bspTable } from './pipe.js';

/**
 * ISO 965-1 by pitch, mm: deviation g, tolerance of the external major (grade 6), of the internal minor (grades 5 and
 * 6), all µm.
 */
interface MetricTolerance {
  readonly pitch: number;
  readonly g: number;
  readonly major6: number;
  readonly minor5: number;
  readonly minor6: number | null;
}

const row = (pitch: number, g: number, major6: number, minor5: number, minor6: number | null): MetricTolerance => ({
  pitch,
  g,
  major6,
  minor5,
  minor6,
});

/** The standard rounds its own formulas to preferred numbers, so the rounded values are what gauges are made to. */
export const metricTolerances: Table<MetricTolerance> = {
  source: 'ISO 965-1, values from memory, held against its formulas',
  rows: [
    row(0.2, 17, 56, 48, null),
    row(0.25, 18, 67, 56, 71),
    row(0.3, 18, 75, 67, 85),
    row(0.35, 19, 85, 80, 100),
    row(0.4, 19, 95, 90, 112),
    row(0.45, 20, 100, 100, 125),
    row(0.5, 20, 106, 112, 140),
    row(0.6, 21, 125, 125, 160),
    row(0.7, 22, 140, 140, 180),
    row(0.75, 22, 140, 150, 190),
    row(0.8, 24, 150, 160, 200),
    row(1, 26, 180, 190, 236),
    row(1.25, 28, 212, 212, 265),
    row(1.5, 32, 236, 236, 300),
    row(1.75, 34, 265, 265, 335),
    row(2, 38, 280, 300, 375),
    row(2.5, 42, 335, 355, 450),
    row(3, 48, 375, 400, 500),
    row(3.5, 53, 425, 450, 560),
    row(4, 60, 475, 475, 600),
    row(4.5, 63, 500, 530, 670),
    row(5, 71, 530, 560, 710),
    row(5.5, 75, 560, 600, 750),
    row(6, 80, 600, 630, 800),
  ],
};

/** What a caliper can reach of a thread of its usual class, mm. */
export interface ClassLimits {
  /** Major diameter of a bolt or stud, mm. */
  readonly external: { readonly name: string; readonly least: number; readonly most: number };
  /** Minor diameter of a tapped hole, mm. */
  readonly internal: { readonly name: string; readonly least: number; readonly most: number };
  /** Which rule gave them, in words. */
  readonly source: string;
}

const toTenthThou = (inches: number): number => Math.round(inches * 1e4) / 1e4;

/**
 * Classes 2A and 2B, inches throughout; length of engagement one diameter, as for UNC and UNF. The standard rounds
 * allowance, tolerances and the minor diameter to 0.0001 in before they are put together.
 */
const unified = (t: Thread): ClassLimits => {
  const d = t.major / MM_PER_INCH;
  const p = t.pitch / MM_PER_INCH;
  const p23 = Math.cbrt(p) ** 2;
  const pitchTolerance = 0.0015 * Math.cbrt(d) + 0.0015 * Math.sqrt(d) + 0.015 * p23;
  const most = d - toTenthThou(0.3 * pitchTolerance);
  const general = p > 0.25 ? 0.15 * p : 0.25 * p - 0.4 * p * p;
  const small = Math.min(Math.max(0.05 * p23 + (0.03 * p) / d - 0.002, general), 0.394 * p);
  const minor = t.minor / MM_PER_INCH;
  return {
    external: { name: '2A', least: (most - toTenthThou(0.06 * p23)) * MM_PER_INCH, most: most * MM_PER_INCH },
    internal: {
      name: '2B',
      least: t.minor,
      most: (toTenthThou(minor) + toTenthThou(d < 0.25 ? small : general)) * MM_PER_INCH,
    },
    source: 'ASME B1.1 formulas for classes 2A and 2B, from memory, held against printed limits',
  };
};

/** 6g and 6H; below 1.6 mm the standard goes over to 6h and 5H. */
const metric = (t: Thread): ClassLimits => {
  const row = metricTolerances.rows.find((r) => r.pitch === t.pitch);
  if (row === undefined) throw new RangeError(`no ISO 965-1 row for a pitch of ${t.pitch} mm`);
  const tiny = t.major < 1.6 || row.minor6 === null;
  const most = t.major - (tiny ? 0 : row.g / 1000);
  return {
    external: { name: tiny ? '6h' : '6g', least: most - row.major6 / 1000, most },
    internal: {
      name: tiny ? '5H' : '6H',
      least: t.minor,
      most: t.minor + (tiny ? row.minor5 : (row.minor6 ?? row.minor5)) / 1000,
    },
    source: metricTolerances.source,
  };
};

/** Medium class, inches: T is the tolerance of the effective diameter, engagement one diameter. */
const whitworth = (t: Thread): ClassLimits => {
  const d = t.major / MM_PER_INCH;
  const p = t.pitch / MM_PER_INCH;
  const tolerance = 0.002 * Math.cbrt(d) + 0.003 * Math.sqrt(d) + 0.005 * Math.sqrt(p);
  const most = d - (d <= 0.75 ? 0.3 * tolerance : 0);
  const tpi = t.tpi ?? 1 / p;
  const nut = 0.2 * p + (tpi >= 26 ? 0.004 : tpi >= 22 ? 0.005 : 0.007);
  return {
    external: {
      name: 'medium',
      least: (most - tolerance - 0.01 * Math.sqrt(p)) * MM_PER_INCH,
      most: most * MM_PER_INCH,
    },
    internal: { name: 'medium', least: t.minor, most: t.minor + nut * MM_PER_INCH },
    source: 'BS 84 medium class formulas, from memory',
  };
};

/** The allowance and the finer tolerance belong to 0 to 10 BA. */
const ba = (t: Thread): ClassLimits => {
  const large = t.major > 1.6;
  const most = t.major - (large ? 0.025 : 0);
  return {
    external: { name: 'normal', least: most - (large ? 0.2 : 0.25) * t.pitch, most },
    internal: { name: 'normal', least: t.minor, most: t.minor + 0.375 * t.pitch },
    source: 'BS 93 normal class formulas: tolerances read, the allowance of 0.025 mm to 10 BA from memory',
  };
};

/** A cycle thread's limits were not read: a caliper's width either side of what a worn one has. */
const cycle = (t: Thread): ClassLimits => ({
  external: { name: 'about', least: t.major - 0.15 * t.pitch, most: t.major },
  internal: { name: 'about', least: t.minor, most: t.minor + 0.25 * t.pitch },
  source: 'common practice: no limits of BS 811 were read',
});

/** ISO 228 class A outside and its one class inside. */
const pipe = (t: Thread): ClassLimits | null => {
  const row = bspTable.rows.find(([size]) => t.size === `G${size}`);
  return row === undefined
    ? null
    : {
        external: { name: 'A', least: row[2] - row[4], most: row[2] },
        internal: { name: 'G', least: row[3], most: row[3] + row[5] },
        source: bspTable.source,
      };
};

const rules = { unified, metric, whitworth, BA: ba, cycle } as const;

/** Limits of the diameters that a caliper can reach: 2A / 2B, 6g / 6H, medium (BSW, BSF), normal (BA), A (G). */
export const classLimits = (thread: Thread): ClassLimits =>
  (thread.series === 'G' ? pipe(thread) : null) ?? rules[thread.form](thread);
