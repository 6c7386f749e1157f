import { clockMisfits, mirrorImage } from '../frame/hand.js';
import type { Network } from '../network/network.js';
import type { Start } from '../start/start.js';
import type { Adjustment } from './adjustment.js';
import { adjust } from './adjust.js';
import { asLow } from './as-low.js';
import { unfold } from './folds.js';
import { isSameShape } from '../frame/alike.js';
import { type System, chi2At, systemOf } from './system.js';

export interface Settled {
  readonly adjustment: Adjustment;
  readonly system: System;
  readonly hand: { readonly settled: boolean; readonly by: string };
  readonly warnings: readonly string[];
}

/** Clocks that speak as loudly for a shape as for its mirror image, rad². */
const EVEN = 1e-6;

/**
 * The shape meant: of all starts the one that ends lowest, of shapes equally low the one that the clocks prefer,
 * and of a shape and its mirror image likewise, unless bench readings tell them apart.
 */
export const settle = (network: Network, starts: readonly Start[]): Settled => {
  const system = systemOf(network);
  const misfit = (a: Adjustment): number => clockMisfits(network, a.values).asIs;
  const better = (a: Adjustment, b: Adjustment): boolean => {
    if (a.stopped.converged !== b.stopped.converged) return a.stopped.converged;
    if (asLow(a.chi2, b.chi2) && asLow(b.chi2, a.chi2)) return misfit(a) < misfit(b) - EVEN;
    return a.chi2 < b.chi2;
  };
  const ends = starts.map((s) => adjust(network, s.values, { system }));
  const best = unfold(
    system,
    ends.reduce((a, b) => (better(b, a) ? b : a)),
  );
  const { adjustment, same } = eitherHand(system, best, better);
  const { asIs, mirrored } = clockMisfits(network, adjustment.values);
  if (!same) {
    const against = mirrored < asIs - EVEN;
    const warnings = against
      ? [
          'The bench readings and the clock positions give opposite hands: the bench readings are followed. Was the face read from its other side?',
        ]
      : [];
    return { adjustment, system, hand: { settled: true, by: 'bench readings' }, warnings };
  }
  if (isSameShape(network, adjustment.values, mirrorImage(network, adjustment.values), 1e-6)) {
    return {
      adjustment,
      system,
      hand: { settled: true, by: 'the shape, which is its own mirror image' },
      warnings: [],
    };
  }
  if (mirrored - asIs > EVEN)
    return { adjustment, system, hand: { settled: true, by: 'clock positions' }, warnings: [] };
  return {
    adjustment,
    system,
    hand: { settled: false, by: 'nothing' },
    warnings: [
      'The readings fit this shape and its mirror image alike, and no clock positions say which is meant. Give at least three features a clock.',
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
