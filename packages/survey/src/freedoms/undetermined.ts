import type { Adjustment } from '../adjust/adjustment.js';
import type { Placed } from '../frame/placed.js';
import { sizeOf } from '../frame/sizes.js';
import type { Network } from '../network/network.js';

/** Features that no reading touches; a vacant place is not missed. */
export const unreadOf = (network: Network): readonly string[] =>
  network.face.features
    .filter((f) => !network.unknowns.features.has(f.id) && f.kind !== 'edge' && !f.vacant)
    .map((f) => f.id);

/** Features that the readings do not fix, in the order of the face. */
export const undeterminedOf = (network: Network, placed: readonly Placed[]): readonly string[] => {
  const fixed = new Set(placed.map((p) => p.slots.id));
  const loose = new Set([
    ...unreadOf(network),
    ...[...network.unknowns.features.keys()].filter((id) => !fixed.has(id)),
  ]);
  return network.face.features.filter((f) => loose.has(f.id)).map((f) => f.id);
};

/** Only the face as a whole can move, and every size is known: there is nothing to say. */
export const nothingLoose = (adjustment: Adjustment, placed: readonly Placed[]): boolean =>
  unreadOf(adjustment.network).length === 0 &&
  placed.length === adjustment.network.unknowns.features.size &&
  placed.every(({ slots }) => slots.radius === null || sizeOf(adjustment, slots).radius !== null);
