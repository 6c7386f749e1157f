import { type Point, apply, distance, register } from '@fayplate/core';
import type { Network } from '../network/network.js';

const pointsOf = ({ unknowns }: Network, x: Float64Array): readonly Point[] =>
  [...unknowns.features.values()].map((f) => ({ x: x[f.x] as number, y: x[f.y] as number }));

/** How far from each other the centre that differs most lies in two arrangements, one moved and turned onto the other but not mirrored, mm. */
export const farthestApart = (network: Network, a: Float64Array, b: Float64Array): number => {
  const [from, to] = [pointsOf(network, a), pointsOf(network, b)];
  if (from.length < 2) return 0;
  const motion = register(from, to);
  return Math.max(...from.map((p, i) => distance(apply(motion, p), to[i] ?? p)));
};

/** Whether two sets of values are one shape, moved and turned but not mirrored, to `share` of its size. */
export const isSameShape = (network: Network, a: Float64Array, b: Float64Array, share = 1e-3): boolean => {
  const to = pointsOf(network, b);
  return farthestApart(network, a, b) <= share * Math.max(...to.map((p) => distance(p, to[0] ?? p)), 0);
};
