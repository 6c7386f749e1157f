import type { Random } from '@fayplate/core';
import { type Equations, layOut } from '../adjust/system.js';
import { flatten, rodsOf } from './rods.js';
import { type Sketch, blankOf } from './sketch.js';
import { slide } from './slide.js';

/** The ties as rods in space, laid out once for many pressings. */
export interface Press {
  readonly sketch: Sketch;
  readonly equations: Equations;
  readonly rods: Equations['observations'];
  /** Mean length of what the ties span, mm. */
  readonly size: number;
}

export const pressOf = (sketch: Sketch): Press => {
  const n = sketch.slots.length;
  const rods = rodsOf(sketch);
  const nodes = sketch.slots.map((_, f) => [3 * f, 3 * f + 1, 3 * f + 2]);
  const blocks = sketch.slots.flatMap((_, f) => [[3 * f, 3 * f + 1], [3 * f + 2]]);
  const lengths = sketch.ties.filter((t) => !t.angular && t.ends.length > 1).map((t) => t.reading.value);
  const size = Math.max(lengths.reduce((a, b) => a + b, 0) / Math.max(lengths.length, 1), 10);
  return { sketch, rods, size, equations: layOut(3 * n, [...rods, ...flatten(n, 1)], nodes, blocks) };
};

/** Sigmas of the pull to the plane, one stage after another, mm: from hardly felt to flat. */
const STAGES = [100, 30, 10, 4, 1.5, 0.5, 0.15, 0.05];
const FIRST_TURNS = { cloud: 40, plane: 15 } as const;
const LATER_TURNS = 6;

/**
 * A plane arrangement lifted out of its plane and pressed flat again: in space a group that lies on the wrong side swings round its hinge,
 * where in the plane it would have to pass through itself. (Distance geometry with a relaxed dimension: Crippen & Havel 1988, from memory.)
 * `height(f)`: how far feature f is lifted, mm; `from` null starts from a random cloud.
 */
export const press = ({ sketch, equations, rods, size }: Press, from: Float64Array | null, height: (feature: number) => number, random: Random): Float64Array => {
  const n = sketch.slots.length;
  const start = new Float64Array(3 * n);
  for (const [f, s] of sketch.slots.entries()) {
    start[3 * f] = from === null ? random.normal() * size * 0.6 : (from[s.x] as number);
    start[3 * f + 1] = from === null ? random.normal() * size * 0.6 : (from[s.y] as number);
    start[3 * f + 2] = height(f);
  }
  let y: Float64Array = start;
  for (const [stage, sigma] of STAGES.entries()) {
    const turns = stage > 0 ? LATER_TURNS : FIRST_TURNS[from === null ? 'cloud' : 'plane'];
    y = slide({ ...equations, observations: [...rods, ...flatten(n, sigma)] }, y, turns, 1e-3).x;
  }
  const x = from === null ? blankOf(sketch) : Float64Array.from(from);
  for (const [f, s] of sketch.slots.entries()) {
    x[s.x] = y[3 * f] as number;
    x[s.y] = y[3 * f + 1] as number;
  }
  return x;
};
