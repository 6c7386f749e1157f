import { type Point, apply } from '@fayplate/core';
import type { Adjustment } from '../adjust/adjustment.js';
import type { Datum } from '../frame/datum.js';
import type { Placed } from '../frame/placed.js';
import type { NextReading } from '../types.js';
import { planReadings } from './plan.js';
import { rankNext } from './rank.js';

/** Readings proposed to fix what is loose: they stand in the order to take them, one may need another. */
const MOST_TO_FIX = 6;

/** What to measure next: what fixes the loose features soonest, or, where none is loose, what shrinks the worst radius most. */
export const nextReadings = (
  adjustment: Adjustment,
  datum: Datum,
  placed: readonly Placed[],
  undetermined: readonly string[],
): readonly NextReading[] => {
  const { network, values } = adjustment;
  const { face, instruments, readings } = network;
  if (undetermined.length === 0) return rankNext(adjustment, datum, placed);
  const places = new Map<string, Point>(
    [...network.unknowns.features].map(([id, s]) => [
      id,
      apply(datum.motion, { x: values[s.x] as number, y: values[s.y] as number }),
    ]),
  );
  return planReadings({ face: { ...face, readings }, instruments }, { places, most: MOST_TO_FIX });
};
