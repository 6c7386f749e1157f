import { type Point, distance } from '@fayplate/core';
import { steps } from '../../test/support/scenes.js';

/**
 * The best that any chooser could make of a diameter that was chosen by one of the seven equally likely ways, told that
 * the holes are equally divided about the spigot and how well the readings fix it.
 */
export const idealChoice = (
  measured: number,
  sigma: number,
): { readonly value: number | null; readonly odds: number } => {
  const weights = new Map<string, { value: number; weight: number }>();
  let total = 1 / 7;
  for (const step of steps) {
    if (step === null) continue;
    for (let k = Math.ceil((measured - 8 * sigma) / step); k <= Math.floor((measured + 8 * sigma) / step); k++) {
      const value = k * step;
      const weight =
        (step / 7) * (Math.exp(-(((value - measured) / sigma) ** 2) / 2) / (sigma * Math.sqrt(2 * Math.PI)));
      const kept = weights.get(value.toFixed(6)) ?? { value, weight: 0 };
      kept.weight += weight;
      weights.set(value.toFixed(6), kept);
      total += weight;
    }
  }
  const [best] = [...weights.values()].sort((a, b) => b.weight - a.weight);
  return best === undefined || best.weight < 1 / 7
    ? { value: null, odds: 1 / 7 / total }
    : { value: best.value, odds: best.weight / total };
};

const normal = (x: number, sigma: number): number =>
  Math.exp(-((x / sigma) ** 2) / 2) / (sigma * Math.sqrt(2 * Math.PI));

/** Density of a side that was drawn from 60 to 140 mm to one of these steps, each as often. */
const likelySide = (measured: number, sigma: number, of: readonly number[]): number =>
  of.reduce((sum, step) => {
    const k = Math.round(measured / step);
    return (
      sum + [k - 1, k, k + 1].reduce((s, n) => s + ((step / 80) * normal(n * step - measured, sigma)) / of.length, 0)
    );
  }, 0);

/**
 * Odds that one who knows that four corners are a rectangle's, of sides to one of `of`, one of them perhaps moved (one
 * time in two, as far as
 * `reach` at most), gives to the likeliest: none moved, or this one. By the right angle and the sides that the other
 * three leave; every distance read to `u`. A little rough: the errors of the corners are taken for independent.
 */
export const idealCorner = (
  corners: readonly Point[],
  u: number,
  systems: readonly (readonly number[])[],
  reach: number,
): number => {
  const at = (i: number): Point => corners[i % 4] ?? { x: 0, y: 0 };
  let [none, most, sum] = [0, 0, 0];
  for (const i of [0, 1, 2, 3]) {
    const [before, across, after] = [at(i + 3), at(i + 2), at(i + 1)];
    const [a, b, d] = [distance(across, after), distance(across, before), distance(before, after)];
    const sides = systems.reduce((all, of) => all + likelySide(a, u, of) * likelySide(b, u, of), 0) / systems.length;
    const three = normal(d - Math.hypot(a, b), Math.SQRT2 * u) * sides;
    const off = distance(at(i), { x: before.x + after.x - across.x, y: before.y + after.y - across.y });
    const moved = off > reach + 5 * u ? 0 : three / (8 * Math.PI * reach ** 2);
    none = Math.max(none, (three * Math.exp(-((off / u) ** 2) / 6)) / (2 * 2 * Math.PI * 3 * u ** 2));
    most = Math.max(most, moved);
    sum += moved;
  }
  const all = sum + none;
  return all > 0 ? Math.max(most, none) / all : 0;
};
