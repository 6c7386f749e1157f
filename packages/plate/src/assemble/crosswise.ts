import { type Point, centroid, heading, subtract } from '@fayplate/core';

/** Two spacings nearer than this are one, radians: well under what a wrench cares for. */
const SAME = 0.02;

const apart = (a: number, b: number): number => Math.abs(Math.atan2(Math.sin(a - b), Math.cos(a - b)));

/** Compares lists of spacings, the nearest first: negative where the first list is the wider. */
const widerFirst = (a: readonly number[], b: readonly number[]): number => {
  const i = a.findIndex((v, k) => Math.abs(v - (b[k] ?? 0)) > SAME);
  return i < 0 ? 0 : (b[i] ?? 0) - (a[i] ?? 0);
};

/**
 * The order in which fasteners round a joint are tightened: the first, the one across from it, then always the one
 * that is farthest from all that are tight. On a circle of 4, 8, 12 or 16 it is the star pattern of ASME PCC-1.
 * `places` in any order; returns indexes into them.
 */
export const crosswise = (places: readonly Point[]): readonly number[] => {
  const centre = centroid(places);
  const angles = places.map((p) => heading(subtract(p, centre)));
  const between = (i: number, j: number): number => apart(angles[i] ?? 0, angles[j] ?? 0);
  const across = (i: number): number => angles.findIndex((_, j) => Math.abs(between(i, j) - Math.PI) < SAME);
  const left = new Set(places.keys());
  const order: number[] = [];
  while (left.size > 0) {
    const last = order.at(-1);
    const opposite = last === undefined ? -1 : across(last);
    const spacings = (i: number): readonly number[] => order.map((j) => between(i, j)).sort((a, b) => a - b);
    // Where nothing lies opposite (an odd number), of those as far from the rest the one farthest from the last.
    const fromLast = (i: number): number => (last === undefined || opposite >= 0 ? 0 : between(i, last));
    const [widest] = [...left].sort(
      (a, b) => widerFirst(spacings(a), spacings(b)) || widerFirst([fromLast(a)], [fromLast(b)]),
    );
    const next = left.has(opposite) ? opposite : (widest ?? 0);
    order.push(next);
    left.delete(next);
  }
  return order;
};
