import type { Network } from '../network/network.js';
import { hingesOf, turnOver } from './hinges.js';
import { clockMisfit } from './misfit.js';
import { search } from './search.js';
import { sketchOf } from './sketch.js';

/** Where to begin: a full vector of unknowns, and in words what it rests on. */
export interface Start {
  readonly values: Float64Array;
  readonly from: string;
}

/** Clocks that speak as loudly for one shape as for another, rad². */
const EVEN = 1e-6;

/** Groups that the readings allow on either side of a hinge, turned to the side that the clocks prefer. */
const turnedByClocks = (network: Network, found: Float64Array): Float64Array => {
  if (network.face.features.every((f) => f.clock === null)) return found;
  const sketch = sketchOf(network);
  const hinges = hingesOf(sketch);
  let x = found;
  for (let turned = true; turned; ) {
    turned = false;
    for (const hinge of hinges) {
      const other = turnOver(sketch, x, hinge);
      if (clockMisfit(network, other) >= clockMisfit(network, x) - EVEN) continue;
      x = other;
      turned = true;
    }
  }
  return x;
};

/**
 * Where the adjustment begins, in the order of trust. The readings alone make the arrangement (see `search`); clocks only choose between
 * arrangements that the readings fit alike, and where they are close to the truth they save time.
 */
export const startPositions = (network: Network): readonly Start[] => {
  if (network.unknowns.features.size === 0) return [{ values: new Float64Array(network.unknowns.count), from: 'nothing' }];
  const { x, from } = search(network);
  return [{ values: turnedByClocks(network, x), from }];
};
