import { EXACTLY, carried, openedNetwork } from '../network/opened.js';
import { type Settled, settle } from '../settle.js';
import type { Start } from '../start/start.js';

/**
 * The same face where diameters given as exact are readings like any other, so that one of them may be what is wrong; the same settled face
 * where there is none. A start is the same shape in both.
 */
export const opened = (settled: Settled): Settled => {
  const { network } = settled.adjustment;
  const open = openedNetwork(network, EXACTLY);
  if (open === null) return settled;
  const placeOf = new Map(open.observations.map((o, i) => [o.id, i]));
  const same = (start: Start): Start => {
    const left = start.left?.flatMap((i) => placeOf.get(network.observations[i]?.id ?? '') ?? []);
    return { ...start, values: carried(start.values, network, open), ...(left === undefined ? {} : { left }) };
  };
  const answer: Start = { values: settled.adjustment.values, from: 'the answer', weight: 0 };
  const again = settle(open, [answer, ...settled.starts].map(same));
  return again.adjustment.stopped.converged && again.leftOut.length === 0 ? again : settled;
};
