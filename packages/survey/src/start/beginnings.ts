import { type Random, polar } from '@fayplate/core';
import type { Equations } from '../adjust/system.js';
import { grow } from './grow.js';
import { lociOf } from './loci.js';
import { type Press, press } from './press.js';
import { type Sketch, blankOf, putIn } from './sketch.js';
import { type Slid, slide } from './slide.js';
import { soundLimit } from './sound.js';

export interface Beginning extends Slid {
  readonly from: string;
}

/** Above so many features an arrangement is grown with fewer rivals beside it. */
const MANY = 150;

/** Every feature in the direction of its clock, as far from the centre as a tie to it says, else anywhere. */
const atClocks = (sketch: Sketch, random: Random): Float64Array => {
  const x = blankOf(sketch);
  const lengths = sketch.ties.filter((t) => !t.angular && t.ends.length > 1).map((t) => t.reading.value);
  const reach = Math.max(10, ...lengths) / 2;
  const radius = (f: number): number => sketch.radii[f] ?? 0;
  for (const f of sketch.slots.keys()) {
    if (f === sketch.centre) continue;
    const away = (sketch.tiesOf[f] ?? []).flatMap((t) => {
      const tie = sketch.ties[t];
      if (tie === undefined || tie.of.length !== 2 || !tie.of.includes(sketch.centre ?? -1)) return [];
      const [locus] = lociOf(tie, f, () => ({ x: 0, y: 0 }), radius);
      return locus?.kind === 'circle' ? [locus.circle.radius] : [];
    })[0];
    putIn(sketch, x, f, polar(away ?? reach * (0.5 + 0.5 * random.uniform()), sketch.clocks[f] ?? 2 * Math.PI * random.uniform()));
  }
  return x;
};

const grown = (sketch: Sketch, equations: Equations, seed: number, breadth: number): Beginning => {
  let best: Slid | null = null;
  for (const x of grow(sketch, seed, breadth).slice(0, 3)) {
    const end = slide(equations, x, 40);
    if (best === null || end.chi2 < best.chi2) best = end;
    if (best.chi2 <= soundLimit(equations, best.x)) break;
  }
  return { ...(best ?? slide(equations, blankOf(sketch), 40)), from: 'readings joined one by one' };
};

/** The beginning of a round: grown from one seed after another, and between them pressed flat from the clocks or from a random cloud. */
export const begin = (pressing: Press, equations: Equations, round: number, random: Random): Beginning => {
  const { sketch, size } = pressing;
  const wide = sketch.slots.length > MANY ? 4 : round === 0 ? 16 : 64;
  if (round % 2 === 0) return grown(sketch, equations, round >> 1, wide);
  const clocked = round % 4 === 1 && sketch.clocks.filter((c) => c !== null).length >= 3;
  const amplitude = size * (clocked ? 0.3 : 0.6);
  const flat = press(pressing, clocked ? atClocks(sketch, random) : null, () => random.normal() * amplitude, random);
  return { ...slide(equations, flat, 40), from: clocked ? 'clock positions' : 'a random cloud' };
};
