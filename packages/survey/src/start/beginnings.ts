import { type Random, polar } from '@fayplate/core';
import type { Equations } from '../adjust/system.js';
import { grow } from './grow.js';
import { lociOf } from './loci.js';
import { multilaterate } from './multilaterate.js';
import { type RelaxedDimension, relaxDimension } from './relaxed-dimension.js';
import { type Sketch, blankOf, setPoint } from './sketch.js';
import { type LocalMinimum, levenbergMarquardt } from './levenberg-marquardt.js';
import { soundLimit } from './sound.js';
import { classicalScaling } from './classical-scaling.js';

interface Beginning extends LocalMinimum {
  readonly from: string;
  /** What it took, in perturbations. */
  readonly cost: number;
}

/** Up to so many features the narrowest growth leaves out next to nothing. */
const FEW = 7;
/** Above so many features clocks seldom lead to the right arrangement, and the readings are joined first. */
const LARGE = 20;
/** Above so many features an arrangement is grown with fewer rivals beside it. */
const MANY = 150;

/**
 * Above so many features none is laid by classical scaling: the shortest ways take time with the cube of their number.
 */
const MOST_SCALED = 300;

/** Every feature in the direction of its clock, as far from the centre as a tie to it says, else anywhere. */
export const atClocks = (sketch: Sketch, random: Random | null): Float64Array => {
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
    setPoint(
      sketch,
      x,
      f,
      polar(
        away ?? reach * (0.5 + 0.5 * (random?.uniform() ?? 0.5)),
        sketch.clocks[f] ?? 2 * Math.PI * (random?.uniform() ?? f / sketch.slots.length),
      ),
    );
  }
  return x;
};

const grown = (sketch: Sketch, equations: Equations, seed: number, breadth: number): LocalMinimum => {
  let best: LocalMinimum | null = null;
  for (const x of grow(sketch, equations, seed, breadth).slice(0, 3)) {
    const end = levenbergMarquardt(equations, x, 40);
    if (best === null || end.chi2 < best.chi2) best = end;
    if (best.chi2 <= soundLimit(equations, best.x)) break;
  }
  return best ?? levenbergMarquardt(equations, blankOf(sketch), 40);
};

/** Seed and breadth of one growth after another: narrow ones first, which cost little. */
const GROWTHS: readonly (readonly [seed: number, breadth: number])[] = [
  [0, 16],
  [1, 16],
  [0, 64],
  [1, 64],
  [2, 64],
  [3, 64],
  [0, 256],
];
/** Rivals kept side by side in growth that cost as much as one perturbation. */
const RIVALS = 2;
/** What bringing an arrangement back from space costs, in perturbations. */
const RELAXED = 2;
/** How far an arrangement is moved out of the plane at first, in mean lengths of a tie. */
const HEIGHTS = { scaled: 0.3, clocks: 0.3, cloud: 0.6 } as const;

type Relaxed = keyof typeof HEIGHTS;

const SAID: Readonly<Record<Relaxed | 'joined', string>> = {
  joined: 'readings joined one by one',
  scaled: 'readings laid end to end',
  clocks: 'clock positions',
  cloud: 'a random cloud',
};
/** As many clocks as show how a face is turned and which side is seen. */
const FEWEST_CLOCKS = 3;

/**
 * The beginning of a round: adjusted from the clocks (where these are right, and mostly they are, nothing else is
 * wanted), by classical scaling, then grown from one seed after another, and between them brought back from space from
 * the clocks, classical scaling or from a random cloud.
 */
export const begin = (
  sketch: Sketch,
  space: () => RelaxedDimension,
  equations: Equations,
  given: number,
  random: Random,
): Beginning => {
  const clocked = sketch.clocks.filter((c) => c !== null).length >= FEWEST_CLOCKS;
  const large = sketch.slots.length > LARGE;
  if (large && given === 0) {
    const joined = multilaterate(sketch);
    if (joined !== null) return { ...levenbergMarquardt(equations, joined, 40), from: SAID.joined, cost: 1 };
  }
  const nth = large ? given - 1 : given;
  if (clocked && nth <= 0)
    return { ...levenbergMarquardt(equations, atClocks(sketch, random), 40), from: SAID.clocks, cost: 1 };
  const round = Math.max(0, clocked ? nth - 1 : nth);
  const relaxedFrom = (way: Relaxed, from: Float64Array | null): Beginning => {
    const flat = relaxDimension(
      space(),
      from,
      () => random.normal() * HEIGHTS[way] * sketch.size,
      random,
      way === 'clocks',
    );
    return { ...levenbergMarquardt(equations, flat, 40), from: SAID[way], cost: RELAXED };
  };
  const scaled =
    sketch.slots.length > FEW && sketch.slots.length <= MOST_SCALED ? classicalScaling(sketch, random) : null;
  if (round === 0 && scaled !== null) return relaxedFrom('scaled', scaled);
  const after = scaled === null ? round : round - 1;
  const turn = after >> 1;
  const growth = GROWTHS[turn];
  if (after % 2 === 0 && growth !== undefined) {
    const breadth = sketch.slots.length > MANY ? 4 : growth[1];
    return {
      ...grown(sketch, equations, growth[0], breadth),
      from: SAID.joined,
      cost: breadth / RIVALS,
    };
  }
  if (turn % 3 !== 2 && clocked) return relaxedFrom('clocks', atClocks(sketch, random));
  return scaled === null || turn % 2 === 0 ? relaxedFrom('cloud', null) : relaxedFrom('scaled', scaled);
};
