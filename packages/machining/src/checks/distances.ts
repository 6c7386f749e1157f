import { distance } from '@fayplate/core';
import type { Plate } from '@fayplate/plate';
import type { CheckDistance } from '../types.js';
import { rigidPairs } from './rigid.js';

interface Round {
  readonly id: string;
  readonly x: number;
  readonly y: number;
  readonly diameter: number;
}

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

/** Round holes as jaws or pins meet them, and of bores about one centre the smallest; a slot has no centre to measure from. */
const measurable = (plate: Plate): readonly Round[] => {
  const rounds: Round[] = plate.holes.filter((h) => h.slot === null).map(({ id, x, y, diameter }) => ({ id, x, y, diameter }));
  const bores = plate.bores.filter((b) => b.kind !== 'relief').toSorted((a, b) => a.diameter - b.diameter);
  for (const bore of bores) if (!rounds.some((r) => distance(r, bore) < 1e-6)) rounds.push(bore);
  return rounds;
};
