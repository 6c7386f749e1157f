import type { Random } from '@fayplate/core';
import { type Equations, layOut, systemOf } from '../adjust/system.js';
import { planePenalties, clockTerms, spatialTermsOf } from './spatial-terms.js';
import { type Sketch, blankOf } from './sketch.js';
import { levenbergMarquardt } from './levenberg-marquardt.js';

/** The ties as distances in space, laid out once for many uses. */
export interface RelaxedDimension {
  readonly sketch: Sketch;
  readonly equations: Equations;
  readonly spatialTerms: Equations['observations'];
}

export const relaxedDimensionOf = (sketch: Sketch): RelaxedDimension => {
  const n = sketch.slots.length;
  const spatialTerms = spatialTermsOf(sketch);
  const nodes = sketch.slots.map((_, f) => [3 * f, 3 * f + 1, 3 * f + 2]);
  const blocks = sketch.slots.flatMap((_, f) => [[3 * f, 3 * f + 1], [3 * f + 2]]);
  return {
    sketch,
    spatialTerms,
    equations: layOut(
      3 * n,
      [...spatialTerms, ...clockTerms(sketch, FREE), ...planePenalties(n, sketch.size)],
      nodes,
      blocks,
      { meter: systemOf(sketch.network).meter },
    ),
  };
};

/** A sigma that nothing feels, mm. */
const FREE = 1e12;
/**
 * Stages for which an arrangement that begins at the clocks is drawn to them, and how loosely: mean lengths of a tie.
 */
const TOWARD_CLOCKS = [0.5, 0.5, 0.7, 1.5];

/** Sigmas of the pull to the plane, one stage after another, in mean lengths of a tie: from hardly felt to flat. */
const STAGES = [1.25, 0.4, 0.12, 0.05, 0.02, 0.006, 0.002, 0.0006];
const FIRST_ITERATIONS = { cloud: 40, plane: 15 } as const;
const LATER_ITERATIONS = 6;

/**
 * A plane arrangement moved out of its plane and brought back: in space a group that lies on the wrong side turns about
 * its separation pair, where in the plane it would have to pass through itself. (Distance geometry with a relaxed
 * dimension: Crippen & Havel 1988, from memory.)
 * `height(f)`: how far feature f is moved out of the plane, mm; `from` null starts from a random cloud; `clocked`: the
 * arrangement begins at the clocks.
 */
export const relaxDimension = (
  { sketch, equations, spatialTerms }: RelaxedDimension,
  from: Float64Array | null,
  height: (feature: number) => number,
  random: Random,
  clocked = false,
): Float64Array => {
  const { size } = sketch;
  const n = sketch.slots.length;
  const start = new Float64Array(3 * n);
  for (const [f, s] of sketch.slots.entries()) {
    start[3 * f] = from === null ? random.normal() * size * 0.6 : (from[s.x] as number);
    start[3 * f + 1] = from === null ? random.normal() * size * 0.6 : (from[s.y] as number);
    start[3 * f + 2] = height(f);
  }
  let y: Float64Array = start;
  for (const [stage, sigma] of STAGES.entries()) {
    const iterations = stage > 0 ? LATER_ITERATIONS : FIRST_ITERATIONS[from === null ? 'cloud' : 'plane'];
    const rays = clockTerms(sketch, clocked ? size * (TOWARD_CLOCKS[stage] ?? FREE) : FREE);
    y = levenbergMarquardt(
      { ...equations, observations: [...spatialTerms, ...rays, ...planePenalties(n, sigma * size)] },
      y,
      iterations,
      1e-3,
    ).x;
  }
  const x = from === null ? blankOf(sketch) : Float64Array.from(from);
  for (const [f, s] of sketch.slots.entries()) {
    x[s.x] = y[3 * f] as number;
    x[s.y] = y[3 * f + 1] as number;
  }
  return x;
};
