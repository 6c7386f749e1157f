import { centroid, wrapAngle } from '@fayplate/core';
import { clockMisfits } from '../frame/hand.js';
import type { Network } from '../network/network.js';

/** How far the arrangement is from the clocks, in its better hand where the readings leave the hand open, rad². */
export const clockMisfit = (network: Network, x: Float64Array): number => {
  const { asIs, mirrored } = clockMisfits(network, x);
  return network.bench ? asIs : Math.min(asIs, mirrored);
};

/** Clocks are right to this, radians: an hour and a half either way, and the same again for how the whole is turned. */
const FAR_OFF = 1;

/**
 * How many clocks are far off in the better hand: none where they could be meant for this arrangement, or where there
 * are none.
 */
export const farClocks = (network: Network, x: Float64Array): number => {
  const { asIs, mirrored } = farInEither(network, x);
  return network.bench ? asIs : Math.min(asIs, mirrored);
};

const farInEither = (
  { face, unknowns }: Network,
  x: Float64Array,
): { readonly asIs: number; readonly mirrored: number } => {
  const slots = [...unknowns.features.values()];
  const clocks = new Map(face.features.map((f) => [f.id, f.clock]));
  const centre = unknowns.features.get(face.centre ?? '');
  const middle =
    centre === undefined
      ? centroid(slots.map((s) => ({ x: x[s.x] as number, y: x[s.y] as number })))
      : { x: x[centre.x] as number, y: x[centre.y] as number };
  const far = (side: 1 | -1): number => {
    const offs = slots.flatMap((s) => {
      const clock = clocks.get(s.id) ?? null;
      return clock === null || s === centre
        ? []
        : [side * Math.atan2((x[s.y] as number) - middle.y, (x[s.x] as number) - middle.x) - clock];
    });
    const turn = Math.atan2(
      offs.reduce((a, o) => a + Math.sin(o), 0),
      offs.reduce((a, o) => a + Math.cos(o), 0),
    );
    return offs.filter((o) => Math.abs(wrapAngle(o - turn)) > FAR_OFF).length;
  };
  return { asIs: far(1), mirrored: far(-1) };
};
