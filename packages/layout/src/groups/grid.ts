import { MM_PER_INCH, type Point, distance } from '@fayplate/core';
import type { Measured } from '../measured/points.js';
import { along, axes } from './axes.js';
import type { Grid } from './group.js';
import { MANY, WIDE, at, keyOf, spread, spreadAlong } from './near.js';

/** Steps that coordinates may have been set out in; all alike until the readings speak. */
export const gridSteps: readonly { readonly step: number; readonly unit: 'in' | 'mm' }[] = [
  ...[8, 16, 32, 64].map((parts) => ({ step: MM_PER_INCH / parts, unit: 'in' as const })),
  ...[1, 0.5, 0.25].map((step) => ({ step, unit: 'mm' as const })),
];

/** A step finer than this many standard deviations of a coordinate is not tried: any pattern fits it. */
const FINEST = 3.5;
const MOST_KEPT = 10;

/** Directions tried in a search round a quarter turn: each moves the farthest feature by an eighth of a step. */
const MOST_TURNS = 4000;
const MOST_PEAKS = 3;

/**
 * Directions in which coordinates fall on a step, where no line through two features runs along an axis: peaks of Σ cos(2π x / step) over
 * all coordinates x as the axes turn, above four standard deviations of what random coordinates give.
 */
const peaks = (points: readonly Point[], zero: Point, step: number): readonly number[] => {
  const far = Math.max(...points.map((p) => distance(p, zero)));
  const turns = Math.ceil((8 * far * Math.PI) / 2 / step);
  if (turns > MOST_TURNS || points.length < 3) return [];
  const height = (k: number): number => points.reduce((s, p) => s + along(p, zero, (k * Math.PI) / 2 / turns).reduce((q, x) => q + Math.cos((2 * Math.PI * x) / step), 0), 0);
  const heights = Array.from({ length: turns }, (_, k) => height(k));
  return heights
    .flatMap((h, k) => (h > 4 * Math.sqrt(points.length) && h >= (heights[(k + 1) % turns] ?? 0) && h > (heights[(k + turns - 1) % turns] ?? 0) ? [{ h, k }] : []))
    .sort((p, q) => q.h - p.h)
    .slice(0, MOST_PEAKS)
    .map(({ k }) => best(points, zero, step, (k * Math.PI) / 2 / turns, Math.PI / 2 / turns));
};

/** The turn near `from` that brings the coordinates nearest to whole steps, by thirds. */
const best = (points: readonly Point[], zero: Point, step: number, from: number, wide: number): number => {
  const misfit = (turn: number): number => points.reduce((s, p) => s + along(p, zero, turn).reduce((q, x) => q + (x - step * Math.round(x / step)) ** 2, 0), 0);
  let [low, high] = [from - wide, from + wide];
  for (let k = 0; k < 40; k++) {
    const [a, b] = [low + (high - low) / 3, high - (high - low) / 3];
    if (misfit(a) < misfit(b)) high = b;
    else low = a;
  }
  return (low + high) / 2;
};

/** A feature that falls on a grid: its coordinates along the axis and to its left, the whole steps nearest to them, and what that gains in nats. */
interface OnGrid {
  readonly f: number;
  /** Standard deviations of the two coordinates, mm. */
  readonly sigma: readonly [number, number];
  readonly uv: readonly [number, number];
  readonly steps: readonly [number, number];
  readonly gain: number;
}

const falling = (measured: Measured, features: readonly number[], from: number, step: number, axis: number): readonly OnGrid[] => {
  const zero = at(measured, from);
  const across = axis + Math.PI / 2;
  return features.flatMap((f) => {
    const sigma = [axis, across].map((direction) => Math.hypot(spreadAlong(measured, f, direction), spreadAlong(measured, from, direction))) as [number, number];
    if (step < FINEST * (Math.hypot(...sigma) / Math.SQRT2)) return [];
    const uv = along(at(measured, f), zero, axis);
    const steps = [Math.round(uv[0] / step), Math.round(uv[1] / step)] as const;
    const rest = uv.map((c, i) => (c - (steps[i] ?? 0) * step) / (sigma[i] ?? 1));
    return rest.every((r) => Math.abs(r) <= WIDE) ? [{ f, sigma, uv, steps, gain: rest.reduce((s, r, i) => s + Math.log(step / (sigma[i] ?? 1)) - 0.92 - (r * r) / 2, 0) }] : [];
  });
};

/** How far the axis ought to turn for the features on a grid to come nearest to their whole steps, by least squares. */
const turnOf = (on: readonly OnGrid[], step: number): number => {
  let [lean, reach] = [0, 0];
  for (const { uv: [u, v], steps: [i, j], sigma } of on) {
    lean += ((v - j * step) * u) / sigma[1] ** 2 - ((u - i * step) * v) / sigma[0] ** 2;
    reach += (u / sigma[1]) ** 2 + (v / sigma[0]) ** 2;
  }
  return lean / Math.max(reach, 1e-12);
};

/** The grid with those of `more` that fall on it too once its axis is as well known as all its features make it; null where none does. */
export const extended = (measured: Measured, grid: Grid, axis: number, more: readonly number[]): Grid | null => {
  if ('own' in grid.about) return null;
  const { feature } = grid.about;
  const on = falling(measured, more, feature, grid.step, axis);
  return on.length === 0 ? null : { ...grid, axis, members: [...grid.members, ...on.map((o) => o.f)], steps: [...grid.steps, ...on.map((o) => o.steps)] };
};

/**
 * Grids from a feature that some of these features fall on. `more`: directions to try beside those of the lines through two features; with
 * `search`, every direction.
 */
export const grids = (measured: Measured, features: readonly number[], more: readonly number[] = [], search = false): readonly Grid[] => {
  if (features.length < 2 || measured.fasteners.length > MANY) return [];
  const from = measured.centres[0] ?? features[0] ?? 0;
  const others = features.filter((f) => f !== from);
  const zero = at(measured, from);
  const found = new Map<string, { readonly grid: Grid; readonly score: number }>();
  const lines = [...more, ...axes(measured, [from, ...others])];
  const sigmas = others.map((f) => Math.hypot(spread(measured, f), spread(measured, from)) / Math.SQRT2);
  for (const { step, unit } of gridSteps) {
    if (sigmas.filter((sigma) => step >= FINEST * sigma).length < 2) continue;
    const searched = search ? peaks(others.map((f) => at(measured, f)), zero, step) : [];
    for (const line of [...lines, ...searched]) {
      // A line through two features is a rough axis: turned to the best of those that it meets, it may meet the others too.
      const rough = falling(measured, others, from, step, line);
      const axis = line + turnOf(rough, step);
      const on = falling(measured, others, from, step, axis);
      if (on.length < 2 || on.every((o) => distance(at(measured, o.f), zero) < step)) continue;
      const members = on.map((o) => o.f);
      const key = `${keyOf(members)} ${step} ${on.map((o) => o.steps.map(Math.abs).join()).join(' ')}`;
      const score = on.reduce((s, o) => s + o.gain, 0);
      if ((found.get(key)?.score ?? Number.NEGATIVE_INFINITY) >= score) continue;
      found.set(key, { score, grid: { kind: 'grid', members, about: { feature: from }, step, unit, axis, held: false, steps: on.map((o) => o.steps) } });
    }
  }
  return [...found.values()]
    .sort((a, b) => b.score - a.score)
    .slice(0, MOST_KEPT)
    .map((g) => g.grid);
};
