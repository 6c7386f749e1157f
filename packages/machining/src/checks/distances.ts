import { distance } from '@fayplate/core';
import type { Plate } from '@fayplate/plate';
import type { ReadingPlan } from '../prove/plan.js';
import type { CheckDistance } from '../types.js';
import { placesOf } from './places.js';

/**
 * The distances of the plan for the drilled plate, in its order and with its numbers, each also from centre to centre
 * and over pins.
 */
export const checkDistances = (plate: Plate, plan: ReadingPlan): readonly CheckDistance[] => {
  const places = placesOf(plate);
  return plan.readings.flatMap((r) => {
    const [, one = '', two = ''] = r.reading.split(' ');
    const a = places.get(one);
    const b = places.get(two);
    if (a === undefined || b === undefined) return [];
    const centres = distance(a, b);
    const radii = (a.diameter + b.diameter) / 2;
    return [{ ...r, between: [one, two], centres, overPins: centres + radii, gap: centres - radii }];
  });
};
