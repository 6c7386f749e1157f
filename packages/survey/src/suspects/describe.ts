import { distance } from '@fayplate/core';
import type { Adjustment } from '../adjust/adjustment.js';
import { placeAll } from '../frame/place-all.js';
import { guessFor } from '../guess/suspect.js';
import type { Suspect } from '../types.js';
import { detectableError } from './critical.js';
import type { SetAside } from './snoop.js';

/** How far each centre that stands in both moves from one adjustment to the other, each in the face's own frame, mm. */
const movesBetween = (before: Adjustment, after: Adjustment): ReadonlyMap<string, number> => {
  const then = new Map(placeAll(after).placed.map((p) => [p.slots.id, p.point]));
  return new Map(
    placeAll(before).placed.flatMap((p): readonly (readonly [string, number])[] => {
      const there = then.get(p.slots.id);
      return there === undefined ? [] : [[p.slots.id, distance(p.point, there)]];
    }),
  );
};

/** `clean`: the readings adjusted with every suspect set aside, against which a guess is made at what happened. */
const suspectFrom = ({ index, w, redundancy, tied, before, after }: SetAside, clean: Adjustment): Suspect => {
  const { observations } = before.network;
  const o = observations[index];
  if (o === undefined) throw new RangeError('a suspect that is not among the observations');
  return {
    reading: o.id,
    measures: o.measures,
    standardized: w,
    error: after.residuals[index] as number,
    detectable: detectableError(o.sigma, redundancy) ?? Number.POSITIVE_INFINITY,
    guess: guessFor({ observation: o, without: clean, expected: o.value - (clean.residuals[index] as number), sigma: o.sigma / Math.sqrt(redundancy) }),
    moves: movesBetween(before, after),
    tiedWith: tied.flatMap((t) => observations[t]?.id ?? []),
  };
};

/** What is to be said of each observation that snooping set aside. */
export const suspectsOf = (aside: readonly SetAside[]): readonly Suspect[] => {
  const clean = aside.at(-1)?.after;
  return clean === undefined ? [] : aside.map((one) => suspectFrom(one, clean));
};
