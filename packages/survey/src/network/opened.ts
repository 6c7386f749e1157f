import { oncePer } from '@fayplate/core';
import { usesRadius } from '@fayplate/job';
import { type Network, networkOf } from './network.js';
import type { Observation } from './observation.js';

/** Features of a diameter given as exact, and of which some reading takes the radius. */
const exactIn = ({ unknowns, readings }: Network): ReadonlySet<string> => {
  const used = new Set(readings.flatMap((r) => (usesRadius(r.kind) ? r.features : [])));
  const exact = [...unknowns.features.values()].filter((f) => f.radius === null && f.exactRadius !== null);
  return new Set(exact.flatMap((f) => (used.has(f.id) ? [f.id] : [])));
};

/** The same face with diameters given as exact only to ± `plusMinus`, mm, so that they may be wrong; null where there is none. */
export const openedNetwork = (network: Network, plusMinus: number): Network | null => {
  const exact = exactIn(network);
  if (exact.size === 0) return null;
  const features = network.face.features.map((f) =>
    exact.has(f.id) && f.diameter !== null ? { ...f, diameter: { ...f.diameter, plusMinus } } : f,
  );
  return networkOf(
    { face: { ...network.face, features }, instruments: network.instruments },
    network.aside.map((a) => a.id),
  );
};

/** ± of a diameter that is given as exact, once it may be wrong, mm: far below what any reading tells, far above rounding. */
export const EXACTLY = 2e-4;

/** Whether an observation is a diameter that was given as exact. */
export const isExact = ({ kind, sigma }: Observation): boolean => kind === 'diameter' && sigma <= EXACTLY / 2;

/** Far wider than a diameter is misread by, mm. */
const LOOSE = 50;

/** The same with those diameters as good as unknown. */
export const loosenedNetwork = oncePer(
  (network: Network): Network | null => openedNetwork(network, LOOSE),
  new WeakMap<Network, Network | null>(),
);

/** A vector of one network's unknowns as one of another of the same face; exact radii take the place of unknown ones. */
export const carried = (x: Float64Array, from: Network, to: Network): Float64Array => {
  const out = new Float64Array(to.unknowns.count);
  for (const [id, there] of to.unknowns.features) {
    const here = from.unknowns.features.get(id);
    if (here === undefined) continue;
    out[there.x] = x[here.x] as number;
    out[there.y] = x[here.y] as number;
    if (there.radius !== null)
      out[there.radius] = here.radius === null ? (here.exactRadius ?? 0) : (x[here.radius] ?? 0);
  }
  for (const [name, slot] of to.unknowns.zeros) out[slot] = x[from.unknowns.zeros.get(name) ?? -1] ?? 0;
  return out;
};
