import type { Random } from '@fayplate/core';
import type { Equations } from '../adjust/system.js';
import { mirrorImage } from '../frame/hand.js';
import { type RelaxedDimension, relaxDimension } from './relaxed-dimension.js';
import { type Sketch, strainOf } from './sketch.js';
import { type LocalMinimum, levenbergMarquardt } from './levenberg-marquardt.js';

/** How far features are moved out of the plane, in mean lengths of a tie. */
const AMPLITUDES = [0.03, 0.1, 0.3, 1];

/** A feature, the more strained the likelier. */
export const strainedOne = (sketch: Sketch, x: Float64Array, random: Random): number => {
  const strains = sketch.slots.map((_, f) => Math.sqrt(strainOf(sketch, x, f)));
  let pick = random.uniform() * strains.reduce((a, b) => a + b, 0);
  return Math.max(
    0,
    strains.findIndex((s) => (pick -= s) <= 0),
  );
};

/** A strained feature and some that hang together with it, at most half of all. */
const group = (sketch: Sketch, x: Float64Array, random: Random): ReadonlySet<number> => {
  const first = strainedOne(sketch, x, random);
  const most = 1 + random.below(Math.max(2, sketch.slots.length >> 1));
  const members = new Set([first]);
  for (const f of members) {
    const near = (sketch.tiesOf[f] ?? []).flatMap((t) => sketch.ties[t]?.ends ?? []);
    for (const e of near) if (members.size < most && random.uniform() < 0.7) members.add(e);
  }
  return members;
};

/**
 * The arrangement moved out of the plane at random, all of it or a strained group as one, brought back and adjusted.
 */
export const perturbThroughSpace = (
  space: RelaxedDimension,
  equations: Equations,
  from: Float64Array,
  random: Random,
): LocalMinimum => {
  const { sketch } = space;
  const amplitude = sketch.size * (AMPLITUDES[random.below(AMPLITUDES.length)] ?? 1);
  const members = random.uniform() < 0.5 ? group(sketch, from, random) : null;
  const height = (f: number): number => {
    if (members === null) return random.normal() * amplitude;
    return members.has(f) ? (0.5 + random.uniform()) * amplitude : 0;
  };
  return levenbergMarquardt(equations, relaxDimension(space, from, height, random), 40);
};

/** How far all features are moved out of the plane on the way toward the clocks, in mean lengths of a tie. */
const LIFTED = { least: 0.2, more: 0.6 } as const;

/**
 * The arrangement, in either hand, moved out of the plane as a whole, and drawn toward the clocks while it is brought
 * back.
 */
export const perturbTowardClocks = (
  space: RelaxedDimension,
  equations: Equations,
  from: Float64Array,
  random: Random,
): LocalMinimum => {
  const { sketch } = space;
  const amplitude = sketch.size * (LIFTED.least + LIFTED.more * random.uniform());
  const hand = sketch.network.bench || random.uniform() < 0.5 ? from : mirrorImage(sketch.network, from);
  return levenbergMarquardt(
    equations,
    relaxDimension(space, hand, () => random.normal() * amplitude, random, true),
    40,
  );
};
