import type { Observation } from './observation.js';

/** Readings of a distance between two centres. */
export const betweenTwo: ReadonlySet<Observation['kind']> = new Set<Observation['kind']>([
  'centres',
  'over',
  'between',
  'step',
  'wall',
]);
