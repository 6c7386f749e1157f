import { type Point, fitCircle, oncePer } from '@fayplate/core';
import { type Reading, readingGrammar, usesRadius } from '@fayplate/job';
import type { Network } from '../network/network.js';
import type { Observation } from '../network/observation.js';
import type { FeatureSlots } from '../network/unknowns.js';

/** A reading that ties centres together (or one to the bench); features are places in the sketch's list. */
export interface Tie {
  readonly reading: Reading;
  readonly observations: readonly Observation[];
  /** In the order written; the same feature may stand twice in a `square`. */
  readonly of: readonly number[];
  /** Each feature once. */
  readonly ends: readonly number[];
  /** Standard uncertainty, mm or radians, with what the radii and the shared zero error add. */
  readonly sigma: number;
  /** An angle's sigma is a length only at a distance. */
  readonly angular: boolean;
}

/** A network as the start sees it: centres to be placed, ties between them, radii near enough. */
export interface Sketch {
  readonly network: Network;
  readonly slots: readonly FeatureSlots[];
  readonly radii: readonly number[];
  readonly ties: readonly Tie[];
  /** For each feature, its ties (places in `ties`). */
  readonly tiesOf: readonly (readonly number[])[];
  /** For each feature, its ties' observations (places in the network's list). */
  readonly observationsOf: readonly (readonly number[])[];
  /** Radians counter-clockwise from +x about the centre; null where not said. */
  readonly clocks: readonly (number | null)[];
  /** The face's centre; null where it has none: clocks then run about the mean of all centres. */
  readonly centre: number | null;
  /** Mean length of what the ties span, mm. */
  readonly size: number;
  /**
   * How far off its line a point lies before a tie of the usual length and sigma, from one on that line, tells it from
   * its mirror image, mm.
   */
  readonly blur: number;
}

/** A radius that nobody stated: any size will do to begin with, and the ties that use it are loose by as much. */
const GUESSED = { radius: 5, sigma: 4 } as const;

interface Size {
  readonly radius: number;
  readonly sigma: number;
}

const sizeOf = (network: Network, slots: FeatureSlots, own: readonly Observation[]): Size => {
  if (slots.radius === null) return { radius: slots.exactRadius ?? 0, sigma: 0 };
  if (own.length > 0) {
    const sorted = own.map((o) => o.value).sort((a, b) => a - b);
    return { radius: (sorted[sorted.length >> 1] ?? 0) / 2, sigma: Math.min(...own.map((o) => o.sigma)) / 2 };
  }
  const rim = network.readings.flatMap((r) =>
    r.kind === 'touch' && r.features[0] === slots.id && r.point !== null ? [r.point] : [],
  );
  const circle = fitCircle(rim);
  return circle === null ? GUESSED : { radius: circle.radius, sigma: 0.1 };
};

export const sketchOf = oncePer((network: Network): Sketch => {
  const slots = [...network.unknowns.features.values()];
  const places = new Map(slots.map((s, i) => [s.id, i]));
  const diameters = new Map<number, Observation[]>();
  for (const o of network.observations) {
    if (o.kind !== 'diameter' && o.kind !== 'dia') continue;
    const [slot = -1] = o.unknowns;
    const known = diameters.get(slot);
    if (known === undefined) diameters.set(slot, [o]);
    else known.push(o);
  }
  const sizes = slots.map((s) => sizeOf(network, s, diameters.get(s.radius ?? -1) ?? []));
  const byReading = new Map<string, Observation[]>();
  for (const o of network.observations) {
    if (o.reading === null) continue;
    const list = byReading.get(o.reading.id);
    if (list === undefined) byReading.set(o.reading.id, [o]);
    else list.push(o);
  }
  const ties = network.readings.flatMap((reading): readonly Tie[] => {
    if (reading.kind === 'dia') return [];
    const of = reading.features.map((id) => places.get(id) ?? -1);
    const zero = network.instruments.get(reading.instrument ?? '')?.zero ?? 0;
    const wide = usesRadius(reading.kind) ? of.map((f) => sizes[f]?.sigma ?? 0) : [];
    const sigma = Math.hypot(reading.plusMinus / 2, zero / 2, ...wide);
    const angular = readingGrammar(reading.kind).measures === 'angle';
    return [{ reading, observations: byReading.get(reading.id) ?? [], of, ends: [...new Set(of)], sigma, angular }];
  });
  const tiesOf: number[][] = slots.map(() => []);
  for (const [t, tie] of ties.entries()) for (const f of tie.ends) tiesOf[f]?.push(t);
  const numberOf = new Map(network.observations.map((o, i) => [o, i]));
  const observationsOf = tiesOf.map((list) =>
    list.flatMap((t) => ties[t]?.observations.map((o) => numberOf.get(o) ?? -1) ?? []),
  );
  const lengths = ties.filter((t) => !t.angular && t.ends.length > 1).map((t) => t.reading.value);
  const size = lengths.length === 0 ? 100 : Math.max(lengths.reduce((a, b) => a + b, 0) / lengths.length, 1e-9);
  const sigmas = ties
    .filter((t) => !t.angular)
    .map((t) => t.sigma)
    .sort((a, b) => a - b);
  const clockOf = new Map(network.face.features.map((f) => [f.id, f.clock]));
  return {
    network,
    slots,
    radii: sizes.map((s) => s.radius),
    ties,
    tiesOf,
    observationsOf,
    clocks: slots.map((s) => (s.id === network.face.centre ? null : (clockOf.get(s.id) ?? null))),
    centre: places.get(network.face.centre ?? '') ?? null,
    size,
    blur: Math.sqrt(2 * size * (sigmas[sigmas.length >> 1] ?? size / 1000)),
  };
}, new WeakMap<Network, Sketch>());

/** A vector of unknowns with every radius near enough and every centre at the origin. */
export const blankOf = (sketch: Sketch): Float64Array => {
  const x = new Float64Array(sketch.network.unknowns.count);
  for (const [f, s] of sketch.slots.entries()) if (s.radius !== null) x[s.radius] = sketch.radii[f] ?? 0;
  return x;
};

export const pointOf = (sketch: Sketch, x: Float64Array, feature: number): Point => {
  const s = sketch.slots[feature];
  return s === undefined ? { x: 0, y: 0 } : { x: x[s.x] ?? 0, y: x[s.y] ?? 0 };
};

export const setPoint = (sketch: Sketch, x: Float64Array, feature: number, at: Point): void => {
  const s = sketch.slots[feature];
  if (s === undefined) return;
  x[s.x] = at.x;
  x[s.y] = at.y;
};

/** Sum of the tie's squares at `x`, in the readings' own sigmas. */
export const strain2 = (tie: Tie, x: Float64Array): number => {
  let sum = 0;
  for (const o of tie.observations) sum += ((o.value - o.model(x)) / o.sigma) ** 2;
  return sum;
};

/** Sum over all ties of one feature. */
export const strainOf = (sketch: Sketch, x: Float64Array, feature: number): number =>
  (sketch.tiesOf[feature] ?? []).reduce((sum, t) => {
    const tie = sketch.ties[t];
    return tie === undefined ? sum : sum + strain2(tie, x);
  }, 0);
