import { apply, distance, register } from '@fayplate/core';
import type { Network } from '../network/network.js';

/** Whether two sets of values are one shape, moved and turned but not mirrored, to `share` of its size. */
export const isSameShape = ({ unknowns }: Network, a: Float64Array, b: Float64Array, share = 1e-3): boolean => {
  const points = (x: Float64Array): readonly { x: number; y: number }[] =>
    [...unknowns.features.values()].map((f) => ({ x: x[f.x] as number, y: x[f.y] as number }));
  const from = points(a);
  const to = points(b);
  if (from.length < 2) return true;
  const motion = register(from, to);
  const size = Math.max(...to.map((p) => distance(p, to[0] ?? p)));
  return from.every((p, i) => distance(apply(motion, p), to[i] ?? p) <= share * size);
};
