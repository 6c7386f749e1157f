import type { Point } from '@fayplate/core';
import { systemOf } from '../adjust/system.js';
import type { Network } from '../network/network.js';
import { hingesOf, turnOver } from './hinges.js';
import { clockMisfit } from './misfit.js';
import { otherPlaces } from './reseat.js';
import { search } from './search.js';
import { blankOf, putIn, sketchOf } from './sketch.js';
import { slide } from './slide.js';

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
  for (let turned = true; turned;) {
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

/** χ² by which an arrangement may be worse than another and still be as likely in any shop: 99 in 100 for one point's two coordinates. */
const BY_CHANCE = 9.21;
/** What the clocks must gain to say where a feature lies, rad²: about 40° on one of them. */
const PLAIN_CLOCK = 0.5;

/**
 * Features that the readings all but allow on two sides (a hole opposite another, measured from three that lie nearly in line) put where their clocks
 * are: by the readings' errors alone either side may fit a trifle better.
 */
const placedByClocks = (network: Network, found: Float64Array): Float64Array => {
  if (network.face.features.every((f) => f.clock === null) || clockMisfit(network, found) < PLAIN_CLOCK) return found;
  const equations = systemOf(network);
  const sketch = sketchOf(network);
  let best = slide(equations, found, 25);
  for (const f of sketch.slots.keys()) {
    for (const at of otherPlaces(sketch, best.x, f)) {
      const x = Float64Array.from(best.x);
      putIn(sketch, x, f, at);
      if (clockMisfit(network, x) > clockMisfit(network, best.x) - PLAIN_CLOCK) continue;
      const end = slide(equations, x, 25);
      if (end.chi2 > best.chi2 + BY_CHANCE || clockMisfit(network, end.x) > clockMisfit(network, best.x) - PLAIN_CLOCK)
        continue;
      best = end;
      break;
    }
  }
  return best.x;
};

/**
 * Where the adjustment begins, in the order of trust. The readings alone make the arrangement (see `search`); clocks only choose between
 * arrangements that the readings fit alike, and where they are close to the truth they save time.
 */
export const startPositions = (network: Network, progress?: (done: number, of: number) => void): readonly Start[] => {
  if (network.unknowns.features.size === 0)
    return [{ values: new Float64Array(network.unknowns.count), from: 'nothing' }];
  const { x, from, only } = search(network, progress);
  progress?.(1, 1);
  return [{ values: only ? x : placedByClocks(network, turnedByClocks(network, x)), from }];
};

/** The start at places that are known; features not among them lie at the origin. */
export const startAt = (network: Network, places: ReadonlyMap<string, Point>): Start => {
  const sketch = sketchOf(network);
  const values = blankOf(sketch);
  for (const [f, { id }] of sketch.slots.entries()) putIn(sketch, values, f, places.get(id) ?? { x: 0, y: 0 });
  return { values, from: 'places that are known' };
};
