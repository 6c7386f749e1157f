import { type Point, apply, distance, register, wrapAngle } from '@fayplate/core';
import type { Network } from '../network/network.js';
import type { FeatureSlots } from '../network/unknowns.js';

const pointsOf = (features: readonly FeatureSlots[], x: Float64Array): readonly Point[] =>
  features.map((f) => ({ x: x[f.x] as number, y: x[f.y] as number }));

const allOf = ({ unknowns }: Network): readonly FeatureSlots[] => [...unknowns.features.values()];

/**
 * How far from each other the centre that differs most lies in two arrangements of these features (all, unless told),
 * one moved and turned onto the other but not mirrored, mm.
 */
export const farthestApart = (
  network: Network,
  a: Float64Array,
  b: Float64Array,
  features: readonly FeatureSlots[] = allOf(network),
): number => {
  const [from, to] = [pointsOf(features, a), pointsOf(features, b)];
  if (from.length < 2) return 0;
  const motion = register(from, to);
  return Math.max(...from.map((p, i) => distance(apply(motion, p), to[i] ?? p)));
};

/** Whether two sets of values are one shape, moved and turned but not mirrored, to `share` of its size. */
export const isSameShape = (network: Network, a: Float64Array, b: Float64Array, share = 1e-3): boolean => {
  const to = pointsOf(allOf(network), b);
  return farthestApart(network, a, b) <= share * Math.max(...to.map((p) => distance(p, to[0] ?? p)), 0);
};

/**
 * Sum of squared differences between the clocks and where the features lie about the centre (rad²), as they lie and
 * mirrored. The `up` feature's own clock says where 12 lies; without one the whole is turned to agree best. Features
 * without a clock do not count.
 */
export const clockMisfits = (
  { face, unknowns }: Network,
  x: Float64Array,
): { readonly asIs: number; readonly mirrored: number } => {
  const slots = [...unknowns.features.values()];
  const centre = slots.find((s) => s.id === face.centre);
  const mean = (axis: 'x' | 'y'): number =>
    slots.reduce((sum, s) => sum + (x[s[axis]] as number), 0) / Math.max(slots.length, 1);
  const middle =
    centre === undefined ? { x: mean('x'), y: mean('y') } : { x: x[centre.x] as number, y: x[centre.y] as number };
  const clocks = new Map(face.features.map((f) => [f.id, f.clock]));
  const pairs = slots.flatMap((s) => {
    const clock = clocks.get(s.id) ?? null;
    if (clock === null || s === centre) return [];
    return [{ id: s.id, clock, heading: Math.atan2((x[s.y] as number) - middle.y, (x[s.x] as number) - middle.x) }];
  });
  const misfit = (side: 1 | -1): number => {
    const offs = pairs.map((p) => side * p.heading - p.clock);
    const lead = pairs.findIndex((p) => p.id === face.up);
    let turn =
      offs[lead] ??
      Math.atan2(
        offs.reduce((s, o) => s + Math.sin(o), 0),
        offs.reduce((s, o) => s + Math.cos(o), 0),
      );
    if (lead < 0)
      for (let pass = 0; pass < 5; pass++)
        turn += offs.reduce((s, o) => s + wrapAngle(o - turn), 0) / Math.max(offs.length, 1);
    return offs.reduce((s, o) => s + wrapAngle(o - turn) ** 2, 0);
  };
  return { asIs: misfit(1), mirrored: misfit(-1) };
};

/** The same shape seen in a mirror: y changes sign in the unknowns' own frame. */
export const mirrorImage = ({ unknowns }: Network, x: Float64Array): Float64Array => {
  const out = Float64Array.from(x);
  for (const { y } of unknowns.features.values()) out[y] = -(out[y] as number);
  return out;
};
