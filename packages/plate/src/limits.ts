import { leastEdge, leastWeb } from '@fayplate/handbook';
import type { PlateSpec } from '@fayplate/job';
import type { Desk } from './desk.js';
import { type Cut, cutRadius } from './solids/cut.js';

/** Least metal between two bores, where no hole says how large it is, mm. Source: common practice. */
const BETWEEN_BORES = 3;

interface Limit {
  readonly value: number;
  readonly source: string;
}

const stated = 'stated in the job';

/** Least metal between these cuts: the job's, else half the diameter of the smaller hole among them. */
export const webLimit = (desk: Desk, cuts: readonly Cut[]): Limit => {
  if (desk.spec.limits.web !== null) return { value: desk.spec.limits.web, source: stated };
  const holes = cuts.filter((c) => c.what === 'hole').map((c) => c.nominal ?? 2 * cutRadius(c));
  return holes.length === 0
    ? { value: BETWEEN_BORES, source: 'common practice' }
    : { value: leastWeb.value * Math.min(...holes), source: leastWeb.source };
};

/**
 * Metal left between the edge and a hole that bears no load, beside a quarter of its diameter: the more of the two.
 * Source: common practice.
 */
const unloaded = (diameter: number): number => 0.5 + Math.max(0.25, BETWEEN_BORES / diameter);

/**
 * Least distance from a hole's centre to the edge: diameters of the hole, or mm where the job gives a length. One that
 * fastens nothing, of so much diameter, tears out at no load and may lie nearer.
 */
export const edgeLimit = (desk: Desk, unloadedHole: number | null = null): Limit & { readonly unit: 'd' | 'mm' } => {
  const loaded = loadedEdge(desk);
  const least = unloadedHole === null ? Infinity : unloaded(unloadedHole);
  return loaded.unit === 'mm' || least >= loaded.value
    ? loaded
    : { value: least, unit: 'd', source: 'common practice: no load pulls it out' };
};

const loadedEdge = (desk: Desk): Limit & { readonly unit: 'd' | 'mm' } => {
  const edge = desk.spec.limits.edge;
  if (edge === null) return { value: leastEdge.value, unit: 'd', source: leastEdge.source };
  return 'times' in edge
    ? { value: edge.times, unit: 'd', source: stated }
    : { value: edge.length, unit: 'mm', source: stated };
};

/**
 * ± of one hole's place where the job does not say, mm: through paper with a punch. Source: common practice (read-out ±
 * 0.05 mm).
 */
export const usualDrilling = 0.5;

/** ± of an axis picked up again by indicator, mm. Source: common practice. */
export const BY_INDICATOR = 0.02;

/**
 * Offset that a coupling bears where the job does not say, mm. Source: common practice, flexible couplings of small
 * shafts.
 */
export const USUAL_OFFSET = 0.2;

/**
 * Full indicator movement to which a part is set true, mm: as the job says, else half of what the shafts bear, twice
 * their offset being what is read.
 */
export const readingOf = (spec: PlateSpec, face: string): number | null => {
  const locate = spec.locate.get(face);
  if (locate?.as !== 'new dowels' || locate.set === undefined) return null;
  return locate.set.reading ?? spec.shafts?.apart.plusMinus ?? spec.alignment?.offset ?? USUAL_OFFSET;
};

/** ± by which the plate's second register misses the axis of its first, mm; 0 where it has not one on either side. */
export const secondSettingOf = (desk: Desk): number =>
  desk.faces.every((f) => desk.spec.locate.get(f.name)?.as === 'register')
    ? (desk.spec.secondSetting ?? BY_INDICATOR)
    : 0;
