import type { Measured } from '../../measured/points.js';
import { along } from '../axes.js';
import { WIDE, at, spreadAlong } from '../near.js';

/** A step finer than this many standard deviations of a coordinate is not tried: any pattern fits it. */
export const FINEST = 3.5;

/** A feature that falls on a grid: its coordinates along the axis and to its left, the whole steps nearest to them, and what that gains in nats. */
export interface OnGrid {
  readonly f: number;
  /** Standard deviations of the two coordinates, mm. */
  readonly sigma: readonly [number, number];
  readonly uv: readonly [number, number];
  readonly steps: readonly [number, number];
  readonly gain: number;
}

/** Those of these features that fall on a grid from a feature along an axis. */
export const falling = (
  measured: Measured,
  features: readonly number[],
  from: number,
  step: number,
  axis: number,
): readonly OnGrid[] => {
  const zero = at(measured, from);
  const across = axis + Math.PI / 2;
  return features.flatMap((f) => {
    const sigma = [axis, across].map((direction) =>
      Math.hypot(spreadAlong(measured, f, direction), spreadAlong(measured, from, direction)),
    ) as [number, number];
    if (step < FINEST * (Math.hypot(...sigma) / Math.SQRT2)) return [];
    const uv = along(at(measured, f), zero, axis);
    const steps = [Math.round(uv[0] / step), Math.round(uv[1] / step)] as const;
    const rest = uv.map((c, i) => (c - (steps[i] ?? 0) * step) / (sigma[i] ?? 1));
    return rest.every((r) => Math.abs(r) <= WIDE)
      ? [
          {
            f,
            sigma,
            uv,
            steps,
            gain: rest.reduce((s, r, i) => s + Math.log(step / (sigma[i] ?? 1)) - 0.92 - (r * r) / 2, 0),
          },
        ]
      : [];
  });
};

/** How far the axis ought to turn for the features on a grid to come nearest to their whole steps, by least squares. */
export const turnOf = (on: readonly OnGrid[], step: number): number => {
  let [lean, reach] = [0, 0];
  for (const {
    uv: [u, v],
    steps: [i, j],
    sigma,
  } of on) {
    lean += ((v - j * step) * u) / sigma[1] ** 2 - ((u - i * step) * v) / sigma[0] ** 2;
    reach += (u / sigma[1]) ** 2 + (v / sigma[0]) ** 2;
  }
  return lean / Math.max(reach, 1e-12);
};
