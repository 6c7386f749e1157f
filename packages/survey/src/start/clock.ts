import type { Network } from '../network/network.js';

/** Where to begin: a full vector of unknowns, and in words what it rests on. */
export interface Start {
  readonly values: Float64Array;
  readonly from: string;
}

/** Largest length among the readings, mm: the size of the face, to the factor of two or so that a start needs. */
const sizeOf = (network: Network): number =>
  Math.max(1, ...network.readings.map((r) => (r.kind === 'angle' || r.kind === 'square' ? 0 : r.value)));

/** The plainest start: every feature on one circle at its clock position, the centre in the middle, radii as stated. */
export const clockStart = (network: Network): Start => {
  const { unknowns, face } = network;
  const values = new Float64Array(unknowns.count);
  const reach = sizeOf(network) / 2;
  let turn = 0;
  for (const slots of unknowns.features.values()) {
    const feature = face.features.find((f) => f.id === slots.id);
    const angle = feature?.clock ?? (turn += 2.399963);
    const middle = slots.id === face.centre;
    values[slots.x] = middle ? 0 : reach * Math.cos(angle);
    values[slots.y] = middle ? 0 : reach * Math.sin(angle);
    if (slots.radius !== null) values[slots.radius] = (feature?.diameter?.value ?? reach / 10) / 2;
  }
  return { values, from: 'clock positions' };
};

/** Starts in the order of trust; the adjustment keeps the one that ends lowest. */
export const startPositions = (network: Network): readonly Start[] => [clockStart(network)];
