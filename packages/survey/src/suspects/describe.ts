import { type Point, distance, oncePer } from '@fayplate/core';
import { adjust } from '../adjust/adjust.js';
import type { Adjustment } from '../adjust/adjustment.js';
import { type System, isSpent } from '../adjust/system.js';
import { placeAll } from '../frame/placed.js';
import { guessFor } from '../guess/guess.js';
import type { Suspect, TiedSlip } from '../types.js';
import { detectableError } from './standardized.js';
import type { SetAside } from './snoop.js';

const placesOf = oncePer(
  (adjustment: Adjustment): ReadonlyMap<string, Point> =>
    new Map(placeAll(adjustment).placed.map((p) => [p.slots.id, p.point])),
  new WeakMap<Adjustment, ReadonlyMap<string, Point>>(),
);

/** How far each centre that stands in both moves from one adjustment to the other, each in the face's own frame, mm. */
const movesBetween = (before: Adjustment, after: Adjustment): ReadonlyMap<string, number> => {
  const then = placesOf(after);
  return new Map(
    [...placesOf(before)].flatMap(([id, at]): readonly (readonly [string, number])[] => {
      const there = then.get(id);
      return there === undefined ? [] : [[id, distance(at, there)]];
    }),
  );
};

/** More ties than this are not looked into: each costs a solution, and nothing would be told apart. */
const MOST_TIED = 16;

/**
 * Those tied with a suspect that would have to be a common slip, were they the wrong one and the suspect sound;
 * `others`: indices of the other suspects.
 */
const slipsAmong = (
  { index, tied, before }: SetAside,
  others: readonly number[],
  clean: Adjustment,
  system: System,
): readonly TiedSlip[] => {
  const { network } = before;
  if (tied.length > MOST_TIED || isSpent(system.meter)) return [];
  return tied.flatMap((t): readonly TiedSlip[] => {
    const o = network.observations[t];
    if (o === undefined || t === index) return [];
    const without = adjust(network, clean.values, {
      system,
      active: network.observations.map((_, i) => i !== t && !others.includes(i)),
      from: 'near',
    });
    const error = without.residuals[t] as number;
    const guess = guessFor({
      observation: o,
      without,
      expected: o.value - error,
      sigma: o.sigma / Math.sqrt(before.redundancy[t] as number),
    });
    return guess === null ? [] : [{ reading: o.id, measures: o.measures, error, guess }];
  });
};

/** `clean`: the readings adjusted with every suspect set aside, against which a guess is made at what happened. */
const suspectFrom = (one: SetAside, all: readonly SetAside[], clean: Adjustment, system: System): Suspect => {
  const { index, w, redundancy, tied, before, after } = one;
  const { observations } = before.network;
  const o = observations[index];
  if (o === undefined) throw new RangeError('a suspect that is not among the observations');
  return {
    reading: o.id,
    measures: o.measures,
    standardized: w,
    error: after.residuals[index] as number,
    detectable: detectableError(o.sigma, redundancy) ?? Number.POSITIVE_INFINITY,
    guess: guessFor({
      observation: o,
      without: clean,
      expected: o.value - (clean.residuals[index] as number),
      sigma: o.sigma / Math.sqrt(redundancy),
    }),
    moves: movesBetween(before, after),
    tiedWith: tied.flatMap((t) => observations[t]?.id ?? []),
    slips: slipsAmong(
      one,
      all.flatMap((a) => (a === one ? [] : [a.index])),
      clean,
      system,
    ),
  };
};

/** What is to be said of each observation that the likeliest explanation sets aside. */
export const suspectsOf = (aside: readonly SetAside[], system: System): readonly Suspect[] => {
  const clean = aside.at(-1)?.after;
  return clean === undefined ? [] : aside.map((one) => suspectFrom(one, aside, clean, system));
};
