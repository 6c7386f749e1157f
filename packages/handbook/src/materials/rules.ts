import { type LengthUnit, MM_PER_INCH } from '@fayplate/core';
import type { Table } from '../source.js';
import { material } from './materials.js';

/** A limit and where it comes from; `value` in mm or, where its name says so, in diameters. */
export interface Rule {
  readonly value: number;
  readonly source: string;
}

/** Least thread engagement in diameters; 1.5 where the material is not known. */
export const leastEngagement = (name: string | null): Rule => {
  const m = name === null ? null : material(name);
  return m === null
    ? { value: 1.5, source: 'general rule, read in one place' }
    : { value: m.engagement, source: m.engagementSource };
};

/** Least distance from a hole's centre to an edge, in hole diameters. */
export const leastEdge: Rule = {
  value: 1.5,
  source:
    'common practice; between the 1.25 bolt diameters of structural steelwork (AISC 360 J3.4, read) and the 2 of ' +
    'aircraft work (from memory)',
};

/** Least metal between a hole and its neighbour or a bore, in diameters of the smaller hole. */
export const leastWeb: Rule = {
  value: 0.5,
  source: 'rule of thumb, from memory: at least half a diameter, better one',
};

/** Thicknesses that flat bar and plate are sold in, inches. */
const inchPlates: Table<number> = {
  source: 'common practice: flat bar and plate as listed by most suppliers; ask yours',
  rows: [1 / 8, 3 / 16, 1 / 4, 5 / 16, 3 / 8, 1 / 2, 5 / 8, 3 / 4, 7 / 8, 1, 1.25, 1.5, 1.75, 2, 2.5, 3, 4],
};

/** Thicknesses that flat bar and plate are sold in, mm. */
const metricPlates: Table<number> = {
  source: 'common practice: flat bar and plate as listed by most suppliers; ask yours',
  rows: [3, 4, 5, 6, 8, 10, 12, 15, 16, 18, 20, 22, 25, 30, 35, 40, 45, 50, 60, 70, 80, 100],
};

/** Metal bought to a thickness, mm. */
export interface PlateStock {
  readonly thickness: number;
  /** As it is asked for: `3/4 in`, `20 mm`. */
  readonly name: string;
}

const fractionOf = (inches: number): string => {
  const whole = Math.floor(inches);
  const sixteenths = Math.round((inches - whole) * 16);
  if (sixteenths === 0) return String(whole);
  const shared = [8, 4, 2].find((n) => sixteenths % n === 0) ?? 1;
  return `${whole === 0 ? '' : `${whole} `}${sixteenths / shared}/${16 / shared}`;
};

/** Every thickness that is sold in one system, the thinnest first. */
export const plateStock = (unit: LengthUnit): readonly PlateStock[] =>
  unit === 'in'
    ? inchPlates.rows.map((t) => ({ thickness: t * MM_PER_INCH, name: `${fractionOf(t)} in` }))
    : metricPlates.rows.map((t) => ({ thickness: t, name: `${t} mm` }));
