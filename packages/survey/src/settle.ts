import { clockMisfits, farthestApart, isSameShape, mirrorImage } from './frame/hand.js';
import { placeAll } from './frame/placed.js';
import type { Network } from './network/network.js';
import type { Start } from './start/parts.js';
import { type Adjustment, asLow } from './adjust/adjustment.js';
import { adjust } from './adjust/adjust.js';
import { lowerSides } from './adjust/sides.js';
import { liveOf, oddsOf, weightOf } from './arrangements/telling.js';
import { type System, chi2At, isSpent, systemOf, within } from './adjust/system.js';

export interface Settled {
  readonly adjustment: Adjustment;
  readonly system: System;
  readonly hand: { readonly settled: boolean; readonly by: string };
  readonly warnings: readonly string[];
  /** Odds of this arrangement beside its rivals, and the rivals, likeliest first. */
  readonly odds: number;
  readonly rivals: readonly { readonly adjustment: Adjustment; readonly odds: number }[];
  /** The starts that it came from, likeliest first. */
  readonly starts: readonly Start[];
  /** Indices of observations left out, since no shape settles with them. */
  readonly leftOut: readonly number[];
}

/** Clocks agree as well with a shape as with its mirror image up to this difference, rad². */
const EVEN = 1e-6;

type Shape = Pick<Settled, 'adjustment' | 'hand' | 'warnings'>;

/**
 * The shape meant: of all starts the one whose end has least against it (see `weightOf`); and of it and its mirror
 * image the one that the clocks prefer, unless bench readings tell them apart. Other minima with hardly more against
 * them are its rivals.
 */
export const settle = (network: Network, starts: readonly Start[]): Settled => {
  const system = systemOf(network);
  return within(system.meter, BUDGET, () => settledFrom(system, starts));
};

/** The budget of settling, in products: about four seconds. It usually needs a small part of it. */
const BUDGET = 2e9;

const settledFrom = (system: System, starts: readonly Start[]): Settled => {
  const { network } = system;
  const ends = starts
    .flatMap((start, i) =>
      i > 0 && isSpent(system.meter) ? [] : [{ start, adjustment: adjust(network, start.values, { system }) }],
    )
    .map(({ start, adjustment }) => ({
      start,
      adjustment,
      weight: start.weight ?? weightOf(network, adjustment.chi2, adjustment.values),
    }))
    .sort(
      (a, b) => Number(b.adjustment.stopped.converged) - Number(a.adjustment.stopped.converged) || a.weight - b.weight,
    );
  const [best, ...others] = ends;
  if (best === undefined) throw new RangeError('no start to settle from');
  if (!best.adjustment.stopped.converged) {
    const without = settledWithout(system, starts);
    if (without !== null) return without;
  }
  const lower = lowerSides(system, best.adjustment);
  // Another end, or the other side of a line, may fit better where it was not looked at. A mirror image that a bench
  // holds off until the budget ends is no rival.
  const cut = isSpent(system.meter);
  const shape = eitherShape(system, lower, best.start.alone === true);
  const settling = others.filter((o) => o.adjustment.stopped.converged);
  const isApart = settling.length === 0 ? () => false : isApartFrom(shape.adjustment);
  const rivals = settling.filter((o) => isApart(o.adjustment));
  const shares = oddsOf([best.weight, ...rivals.map((r) => r.weight)]);
  return {
    ...shape,
    system,
    odds: shares[0] ?? 1,
    starts: ends.map((e) => (cut ? { ...e.start, unfinished: true } : e.start)),
    leftOut: [],
    rivals: rivals.slice(0, liveOf(shares) - 1).map(({ adjustment }, i) => ({
      adjustment: inLikelierHand(network, shape.adjustment, adjustment),
      odds: shares[i + 1] ?? 0,
    })),
  };
};

/** Where more of the readings would have to be left out, it is no shape that they were taken from. */
const MOST_LEFT = 1 / 2;

/**
 * Where no shape settles with all readings: one that does without those that do not fit it, in the hand that the clocks
 * prefer.
 */
const settledWithout = (system: System, starts: readonly Start[]): Settled | null => {
  const { network } = system;
  for (const start of starts) {
    const leftOut = start.left ?? [];
    if (leftOut.length === 0 || leftOut.length > MOST_LEFT * network.observations.length) continue;
    if (start !== starts[0] && isSpent(system.meter)) break;
    const active = network.observations.map((_, i) => !leftOut.includes(i));
    const { asIs, mirrored } = clockMisfits(network, start.values);
    const turned = !network.bench && mirrored < asIs - EVEN;
    const values = turned ? mirrorImage(network, start.values) : start.values;
    const adjustment = adjust(network, values, { system, active });
    if (!adjustment.stopped.converged) continue;
    const settled = network.bench || Math.abs(asIs - mirrored) > EVEN;
    const by = network.bench ? 'bench readings' : settled ? 'clock positions' : 'nothing';
    return { adjustment, system, hand: { settled, by }, warnings: [], odds: 1, rivals: [], starts, leftOut };
  }
  return null;
};

/**
 * The rival in the hand that the clocks prefer, as the arrangement itself stands; where they prefer neither, the one
 * nearer to it.
 */
const inLikelierHand = (network: Network, found: Adjustment, rival: Adjustment): Adjustment => {
  if (network.bench) return rival;
  const values = mirrorImage(network, rival.values);
  const { asIs, mirrored } = clockMisfits(network, rival.values);
  const turned =
    Math.abs(asIs - mirrored) > EVEN
      ? mirrored < asIs
      : farthestApart(network, found.values, values) < farthestApart(network, found.values, rival.values);
  return turned ? adjust(network, values, { from: 'near' }) : rival;
};

/**
 * Two arrangements are two where some centre of theirs lies farther apart than its own uncertainty reaches, in standard
 * deviations.
 */
const APART = 3;

/**
 * Whether another arrangement is another shape of what the readings fix; what they leave loose may lie anywhere, and
 * makes none.
 */
const isApartFrom = (found: Adjustment): ((rival: Adjustment) => boolean) => {
  const { network, values, nullSpace } = found;
  const features =
    nullSpace.length > (network.bench ? 0 : 3)
      ? placeAll(found).placed.map((p) => p.slots)
      : [...network.unknowns.features.values()];
  const spread = Math.max(...features.map((f) => Math.sqrt(found.cofactor(f.x, f.x) + found.cofactor(f.y, f.y))), 0);
  return (rival) => {
    const apart = Math.min(
      farthestApart(network, values, rival.values, features),
      network.bench
        ? Number.POSITIVE_INFINITY
        : farthestApart(network, values, mirrorImage(network, rival.values), features),
    );
    return apart > APART * spread;
  };
};

const eitherShape = (system: System, found: Adjustment, alone: boolean): Shape => {
  const { network } = system;
  const misfit = (a: Adjustment): number => clockMisfits(network, a.values).asIs;
  const better = (a: Adjustment, b: Adjustment): boolean => {
    if (a.stopped.converged !== b.stopped.converged) return a.stopped.converged;
    if (asLow(a.chi2, b.chi2) && asLow(b.chi2, a.chi2)) return misfit(a) < misfit(b) - EVEN;
    return a.chi2 < b.chi2;
  };
  const { adjustment, same } = alone ? { adjustment: found, same: false } : eitherHand(system, found, better);
  const { asIs, mirrored } = clockMisfits(network, adjustment.values);
  if (!same) {
    const against = mirrored < asIs - EVEN;
    const warnings = against
      ? [
          'The bench readings and the clock positions are mirror images of each other: the bench readings are ' +
            'used. Was the face read from its other side?',
        ]
      : [];
    return { adjustment, hand: { settled: true, by: 'bench readings' }, warnings };
  }
  if (isSameShape(network, adjustment.values, mirrorImage(network, adjustment.values), 1e-6)) {
    return {
      adjustment,
      hand: { settled: true, by: 'the shape, which is its own mirror image' },
      warnings: [],
    };
  }
  if (mirrored - asIs > EVEN) return { adjustment, hand: { settled: true, by: 'clock positions' }, warnings: [] };
  return {
    adjustment,
    hand: { settled: false, by: 'nothing' },
    warnings: [
      'The readings fit this shape and its mirror image alike, and no clock positions say which is right. Give at ' +
        'least three features a clock.',
    ],
  };
};

/** The shape or its mirror image, whichever is better, and whether the readings fit both alike. */
const eitherHand = (
  system: System,
  best: Adjustment,
  better: (a: Adjustment, b: Adjustment) => boolean,
): { readonly adjustment: Adjustment; readonly same: boolean } => {
  if (!best.stopped.converged) return { adjustment: best, same: true };
  const { network } = system;
  const mirror = mirrorImage(network, best.values);
  const chi2 = chi2At(system, mirror, []);
  const alike = asLow(chi2, best.chi2);
  // Without a bench frame every reading looks the same in a mirror, so that nothing need be solved to know it.
  if (alike && clockMisfits(network, mirror).asIs >= clockMisfits(network, best.values).asIs - EVEN)
    return { adjustment: best, same: true };
  const flipped = adjust(network, mirror, { system, from: alike ? 'near' : 'afar' });
  const other = alike || !isSameShape(network, best.values, flipped.values);
  if (!other || !flipped.stopped.converged) return { adjustment: best, same: false };
  const same = asLow(best.chi2, flipped.chi2) && asLow(flipped.chi2, best.chi2);
  return { adjustment: better(flipped, best) ? flipped : best, same };
};
