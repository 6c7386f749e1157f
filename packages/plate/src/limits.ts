import { leastEdge, leastWeb } from '@fayplate/handbook';
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

/** Least distance from a hole's centre to the edge: diameters of the hole, or mm where the job gives a length. */
export const edgeLimit = (desk: Desk): Limit & { readonly unit: 'd' | 'mm' } => {
  const edge = desk.spec.limits.edge;
  if (edge === null) return { value: leastEdge.value, unit: 'd', source: leastEdge.source };
  return 'times' in edge
    ? { value: edge.times, unit: 'd', source: stated }
    : { value: edge.length, unit: 'mm', source: stated };
};
