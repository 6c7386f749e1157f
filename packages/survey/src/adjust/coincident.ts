import { isDistance } from '@fayplate/job';
import type { Network } from '../network/network.js';
import type { Observation } from '../network/observation.js';

/**
 * Closer than this share of the reading's own standard uncertainty, the direction between two centres means nothing.
 */
const TOGETHER = 0.01;

const gapOf = ({ unknowns }: Network, o: Observation, x: Float64Array): number => {
  const [a, b] = (o.reading?.features ?? []).map((id) => unknowns.features.get(id));
  const there =
    o.kind === 'touch'
      ? (o.reading?.point ?? null)
      : b === undefined
        ? null
        : { x: x[b.x] as number, y: x[b.y] as number };
  return a === undefined || there === null
    ? Number.POSITIVE_INFINITY
    : Math.hypot((x[a.x] as number) - there.x, (x[a.y] as number) - there.y);
};

/** Distances whose two ends coincide: they hold the two together, but their direction is undefined. */
export const coincidentIn = (network: Network, x: Float64Array): readonly number[] =>
  network.observations.flatMap((o, i) =>
    (isDistance(o.kind) || o.kind === 'touch') && gapOf(network, o, x) < TOGETHER * o.sigma ? [i] : [],
  );

/** Centres that coincide, where a distance has no direction. */
export const coincidentWords = (network: Network, values: Float64Array): readonly string[] =>
  coincidentIn(network, values).map((i) => {
    const o = network.observations[i];
    const [a = '', b = 'the touched point'] = o?.reading?.features ?? [];
    return (
      `${a} and ${b} come out in one place, so that “${o?.text ?? ''}” cannot say in which direction they differ. ` +
      'Read both against other features.'
    );
  });
