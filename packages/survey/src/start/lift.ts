import type { Random } from '@fayplate/core';
import type { Equations } from '../adjust/system.js';
import { mirrorImage } from '../frame/hand.js';
import { type Press, press } from './press.js';
import { type Sketch, strainOf } from './sketch.js';
import { type Slid, slide } from './slide.js';

/** How far features are lifted, in mean lengths of a tie. */
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

/** The arrangement lifted at random, all of it or a strained group as one, pressed flat and let slide. */
export const lift = (pressing: Press, equations: Equations, from: Float64Array, random: Random): Slid => {
  const { sketch } = pressing;
  const amplitude = sketch.size * (AMPLITUDES[random.below(AMPLITUDES.length)] ?? 1);
  const members = random.uniform() < 0.5 ? group(sketch, from, random) : null;
  const height = (f: number): number => {
    if (members === null) return random.normal() * amplitude;
    return members.has(f) ? (0.5 + random.uniform()) * amplitude : 0;
  };
  return slide(equations, press(pressing, from, height, random), 40);
};

/** How far all features are lifted to lean on the clocks, in mean lengths of a tie. */
const LEANT = { least: 0.2, more: 0.6 } as const;

/** The arrangement, in either hand, lifted as a whole and leant on the clocks while it is pressed flat. */
export const leant = (pressing: Press, equations: Equations, from: Float64Array, random: Random): Slid => {
  const { sketch } = pressing;
  const amplitude = sketch.size * (LEANT.least + LEANT.more * random.uniform());
  const hand = sketch.network.bench || random.uniform() < 0.5 ? from : mirrorImage(sketch.network, from);
  return slide(
    equations,
    press(pressing, hand, () => random.normal() * amplitude, random, true),
    40,
  );
};
