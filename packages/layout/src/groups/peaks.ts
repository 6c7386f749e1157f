import { type Point, distance, subtract } from '@fayplate/core';
import { along } from './near.js';

/** Directions tried in a search round a quarter turn: each moves the farthest feature by a sixth of a step. */
const MOST_TURNS = 3000;
const MOST_PEAKS = 3;

/**
 * Directions in which coordinates fall on a step, where no line through two features runs along an axis: peaks of Σ
 * cos(2π x / step) over all coordinates x as the axes turn, above four standard deviations of what random coordinates
 * give.
 */
export const peaks = (points: readonly Point[], zero: Point, step: number): readonly number[] => {
  const far = Math.max(...points.map((p) => distance(p, zero)));
  const turns = Math.ceil((6 * far * Math.PI) / 2 / step);
  // The highest that a peak can be is twice the number of points: four cannot stand out.
  if (turns > MOST_TURNS || points.length < 5) return [];
  const waves = (2 * Math.PI) / step;
  const from = points.map((p) => subtract(p, zero));
  const heights = new Float64Array(turns);
  for (let k = 0; k < turns; k++) {
    const turn = (k * Math.PI) / 2 / turns;
    const [c, s] = [waves * Math.cos(turn), waves * Math.sin(turn)];
    let sum = 0;
    for (const { x, y } of from) sum += Math.cos(c * x + s * y) + Math.cos(c * y - s * x);
    heights[k] = sum;
  }
  const least = 4 * Math.sqrt(points.length);
  const found: { readonly h: number; readonly k: number }[] = [];
  for (let k = 0; k < turns; k++) {
    const h = heights[k] as number;
    if (h > least && h >= (heights[(k + 1) % turns] as number) && h > (heights[(k + turns - 1) % turns] as number))
      found.push({ h, k });
  }
  return found
    .sort((p, q) => q.h - p.h)
    .slice(0, MOST_PEAKS)
    .map(({ k }) => best(points, zero, step, (k * Math.PI) / 2 / turns, Math.PI / 2 / turns));
};

/** The turn near `from` that brings the coordinates nearest to whole steps, by thirds. */
const best = (points: readonly Point[], zero: Point, step: number, from: number, wide: number): number => {
  const misfit = (turn: number): number =>
    points.reduce(
      (s, p) => s + along(p, zero, turn).reduce((q, x) => q + (x - step * Math.round(x / step)) ** 2, 0),
      0,
    );
  let [low, high] = [from - wide, from + wide];
  for (let k = 0; k < 40; k++) {
    const [a, b] = [low + (high - low) / 3, high - (high - low) / 3];
    if (misfit(a) < misfit(b)) high = b;
    else low = a;
  }
  return (low + high) / 2;
};
