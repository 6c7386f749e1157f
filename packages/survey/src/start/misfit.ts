import { clockMisfits } from '../frame/hand.js';
import type { Network } from '../network/network.js';

/** How far the arrangement is from the clocks, in its better hand where the readings leave the hand open, rad². */
export const clockMisfit = (network: Network, x: Float64Array): number => {
  const { asIs, mirrored } = clockMisfits(network, x);
  return network.bench ? asIs : Math.min(asIs, mirrored);
};
