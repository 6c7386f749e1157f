import { distance } from '@fayplate/core';
import type { Plate } from '@fayplate/plate';
import type { CheckDistance } from '../types.js';
import { measurable } from './places.js';
import { rigidPairs } from './rigid.js';

/** The distances to measure on the finished plate: the fewest that fix every round hole and bore, the farthest first. */
export const checkDistances = (plate: Plate): readonly CheckDistance[] => {
  const rounds = measurable(plate);
  return rigidPairs(rounds).flatMap(([i, j]) => {
    const a = rounds[i];
    const b = rounds[j];
    if (a === undefined || b === undefined) return [];
    const centres = distance(a, b);
    const radii = (a.diameter + b.diameter) / 2;
    return [{ between: [a.id, b.id], centres, overPins: centres + radii, gap: centres - radii }];
  });
};
