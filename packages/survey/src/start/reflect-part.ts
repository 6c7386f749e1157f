import { type Point, type Random, centroid, midpoint } from '@fayplate/core';
import type { Equations } from '../adjust/system.js';
import { reflectAbout } from './separation-pairs.js';
import { strainedOne } from './perturb.js';
import type { Line } from './locus.js';
import { type Sketch, pointOf } from './sketch.js';
import { type LocalMinimum, levenbergMarquardt } from './levenberg-marquardt.js';

/** Of a feature's ties to a group: how much chance may count beside one of them. */
const CHANCE = 0.5;

/**
 * A strained feature with those that most ties bind to it, one after another, at most half of all: a part that is
 * likely right in itself.
 */
const part = (sketch: Sketch, x: Float64Array, random: Random): ReadonlySet<number> => {
  const members = new Set([strainedOne(sketch, x, random)]);
  const most = 2 + random.below(Math.max(2, sketch.slots.length >> 1));
  while (members.size < most) {
    const bound = new Map<number, number>();
    for (const f of members) {
      for (const t of sketch.tiesOf[f] ?? []) {
        for (const e of sketch.ties[t]?.ends ?? [])
          if (!members.has(e)) bound.set(e, (bound.get(e) ?? 0) + 1 + CHANCE * random.uniform());
      }
    }
    const [next] = [...bound].reduce<readonly [number, number]>((a, b) => (b[1] > a[1] ? b : a), [-1, 0]);
    if (next < 0) break;
    members.add(next);
  }
  return members;
};

/** A line through points: through two of them, or along all. */
const lineAmong = (points: readonly Point[], random: Random): Line => {
  const [a, b] = [points[random.below(points.length)], points[random.below(points.length)]];
  const middle = centroid(points);
  if (a !== undefined && b !== undefined && a !== b && random.uniform() < 0.5) {
    const angle = Math.atan2(b.y - a.y, b.x - a.x);
    return { kind: 'line', through: midpoint(a, b), along: { x: Math.cos(angle), y: Math.sin(angle) } };
  }
  const sum = (of: (dx: number, dy: number) => number): number =>
    points.reduce((s, p) => s + of(p.x - middle.x, p.y - middle.y), 0);
  const angle =
    Math.atan2(
      2 * sum((dx, dy) => dx * dy),
      sum((dx, dy) => dx * dx - dy * dy),
    ) / 2;
  return { kind: 'line', through: middle, along: { x: Math.cos(angle), y: Math.sin(angle) } };
};

/** The arrangement with one part reflected in a line among what ties it to the rest, and adjusted. */
export const reflectPart = (sketch: Sketch, equations: Equations, from: Float64Array, random: Random): LocalMinimum => {
  const members = part(sketch, from, random);
  const across = [...new Set([...members].flatMap((f) => sketch.tiesOf[f] ?? []))].flatMap((t) => {
    const ends = sketch.ties[t]?.ends ?? [];
    return ends.every((e) => members.has(e)) ? [] : ends.map((e) => pointOf(sketch, from, e));
  });
  const x = across.length > 1 ? reflectAbout(sketch, from, lineAmong(across, random), members) : from;
  return levenbergMarquardt(equations, x, 40);
};
