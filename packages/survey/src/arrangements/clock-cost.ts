import { centroid, wrapAngle } from '@fayplate/core';
import type { Network } from '../network/network.js';

/**
 * A clock is read by eye: one standard deviation of it, radians, 20°, so that a slip of an hour is common and one of four hours is not.
 * `STRAY`: the share of clocks that are of another feature or mistyped, and may lie anywhere; `VOID`: how seldom all the clocks of a face say
 * nothing (written for another view, or copied from another face). All three are judgements.
 */
const SIGMA = 0.35;
const STRAY = 0.01;
const VOID = 1e-3;
/** Turns are tried at so many of the clocks at most. */
const MOST_TURNS = 48;

const PEAK = (1 - STRAY) / (SIGMA * Math.sqrt(2 * Math.PI)) + STRAY / (2 * Math.PI);

/** −2 log of how likely a clock is to be off by so much, beside one that is right: 2.2 for an hour, 8.8 for two, never more than 13. */
const costOf = (off: number): number => {
  const near = ((1 - STRAY) / (SIGMA * Math.sqrt(2 * Math.PI))) * Math.exp(-0.5 * (off / SIGMA) ** 2);
  return -2 * Math.log((near + STRAY / (2 * Math.PI)) / PEAK);
};

const bounded = (sum: number): number => -2 * Math.log((1 - VOID) * Math.exp(-sum / 2) + VOID);

/** Direction of each feature with a clock about the centre (or the mean of the centres), less its clock, in one hand, radians. */
const offsOf = ({ face, unknowns }: Network, x: Float64Array, side: 1 | -1): readonly number[] => {
  const slots = [...unknowns.features.values()];
  const centre = unknowns.features.get(face.centre ?? '');
  const middle =
    centre === undefined
      ? centroid(slots.map((s) => ({ x: x[s.x] as number, y: x[s.y] as number })))
      : { x: x[centre.x] as number, y: x[centre.y] as number };
  const clocks = new Map(face.features.map((f) => [f.id, f.clock]));
  return slots.flatMap((s) => {
    const clock = clocks.get(s.id) ?? null;
    if (clock === null || s === centre) return [];
    return [side * Math.atan2((x[s.y] as number) - middle.y, (x[s.x] as number) - middle.x) - clock];
  });
};

const costTurned = (offs: readonly number[]): number => {
  if (offs.length === 0) return 0;
  const step = Math.max(1, Math.ceil(offs.length / MOST_TURNS));
  let least = Number.POSITIVE_INFINITY;
  for (let i = 0; i < offs.length; i += step) {
    let turn = offs[i] as number;
    // The mean of those near, twice: how the whole is turned is free.
    for (let pass = 0; pass < 3; pass++) {
      const near = offs.map((o) => wrapAngle(o - turn)).filter((o) => Math.abs(o) < 2 * SIGMA);
      turn += near.reduce((s, o) => s + o, 0) / Math.max(near.length, 1);
    }
    least = Math.min(
      least,
      offs.reduce((s, o) => s + costOf(wrapAngle(o - turn)), 0),
    );
  }
  return least;
};

/**
 * What the clocks have against an arrangement: −2 log of how likely they are as written, beside clocks that are right; 0 to 13.8. The
 * arrangement is turned, and where no bench reading holds it taken in either hand, as agrees best with them.
 */
export const clockCost = (network: Network, x: Float64Array): number => {
  const asIs = costTurned(offsOf(network, x, 1));
  return bounded(network.bench ? asIs : Math.min(asIs, costTurned(offsOf(network, x, -1))));
};
