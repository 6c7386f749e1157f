import { MM_PER_INCH } from '@fayplate/core';
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
    'common practice; between the 1.25 bolt diameters of structural steelwork (AISC 360 J3.4, read) and the 2 of aircraft work (from memory)',
};

/** Least metal between a hole and its neighbour or a bore, in diameters of the smaller hole. */
export const leastWeb: Rule = {
  value: 0.5,
  source: 'rule of thumb, from memory: at least half a diameter, better one',
};

/** Centre to edge for bolts in structural steel: bolt and edge distance. */
export const structuralEdgesInch: Table<readonly [bolt: number, edge: number]> = {
  source: 'AISC 360 table J3.4, inches, read in one place; above 1 1/4 in 1.25 diameters',
  rows: [
    [1 / 2, 3 / 4],
    [5 / 8, 7 / 8],
    [3 / 4, 1],
    [7 / 8, 1.125],
    [1, 1.25],
    [1.125, 1.5],
    [1.25, 1.625],
  ],
};

export const structuralEdgesMetric: Table<readonly [bolt: number, edge: number]> = {
  source: 'AISC 360 table J3.4M, mm, read in one place; above M36 1.25 diameters',
  rows: [
    [16, 22],
    [20, 26],
    [22, 28],
    [24, 30],
    [27, 34],
    [30, 38],
    [36, 46],
  ],
};

/** The structural edge distance for a bolt diameter, mm: the row at or above it, 1.25 diameters beyond the table. */
export const structuralEdge = (bolt: number): number => {
  const inch = structuralEdgesInch.rows.find(([d]) => Math.abs(d * MM_PER_INCH - bolt) < 1e-6);
  if (inch !== undefined) return inch[1] * MM_PER_INCH;
  return structuralEdgesMetric.rows.find(([d]) => d >= bolt - 1e-6)?.[1] ?? 1.25 * bolt;
};
