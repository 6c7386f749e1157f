import { oncePer } from '@fayplate/core';
import type { Network } from '../network/network.js';
import type { Observation } from '../network/observation.js';
import type { SymmetricMatrix } from '../sparse/factor.js';
import { type FactorPattern, minimumDegree, symbolicFactor, placeOf } from '../sparse/pattern.js';

/** The part of an observation that the equations need. */
export type Term = Pick<Observation, 'unknowns' | 'model' | 'value' | 'sigma'>;

/**
 * The shape of normal equations, found once: which unknowns meet, in which order they are eliminated, where each
 * product goes.
 */
export interface Equations {
  readonly observations: readonly Term[];
  readonly pattern: FactorPattern;
  /** First entry of observation i among the slopes; the last element is their number. */
  readonly offsets: Int32Array;
  /** Slot of the unknown of each slope. */
  readonly slots: Int32Array;
  /** Place of the product of slopes a ≥ b of one observation, observation by observation, row by row. */
  readonly places: Int32Array;
  /** Unknowns that share a scale: x with y, a radius or a zero error alone. */
  readonly blocks: readonly (readonly number[])[];
  /** Cost of one iteration: products of two numbers, in the factor and in the gradients. */
  readonly cost: number;
  readonly meter: Meter;
}

/**
 * How much of its budget a stage of the work has used, in products; one meter counts for all equations of a network.
 */
interface Meter {
  spent: number;
  limit: number;
}

export const isSpent = ({ spent, limit }: Meter): boolean => spent > limit;

/**
 * Work that may take so many products and no more, nor more than is left of the work that it is a part of. What is
 * counted is steps, so that the same job gives the same bytes.
 */
export const within = <T>(meter: Meter, products: number, work: () => T): T => {
  const before = meter.limit;
  meter.limit = Math.min(before, meter.spent + products);
  const done = work();
  meter.limit = before;
  return done;
};

/** The normal equations of a network. */
export interface System extends Equations {
  readonly network: Network;
}

/**
 * Unknowns are ordered feature by feature. Those that define the face's frame come last, so that free motions are held
 * there.
 */
export const systemOf = oncePer((network: Network): System => {
  const { unknowns, face } = network;
  const features = [...unknowns.features.values()];
  const nodes = [
    ...features.map((f) => (f.radius === null ? [f.x, f.y] : [f.radius, f.x, f.y])),
    ...[...unknowns.zeros.values()].map((z) => [z]),
  ];
  const frame = [face.up, face.across?.[1], face.across?.[0], face.centre];
  const last = [...new Set(frame.map((id) => features.findIndex((f) => f.id === id)).filter((n) => n >= 0))];
  const blocks = [
    ...features.map((f) => [f.x, f.y]),
    ...features.flatMap((f) => (f.radius === null ? [] : [[f.radius]])),
    ...[...unknowns.zeros.values()].map((z) => [z]),
  ];
  return {
    network,
    ...layOut(unknowns.count, network.observations, nodes, blocks, { last, points: new Set(features.map((f) => f.x)) }),
  };
}, new WeakMap<Network, System>());

/**
 * `nodes`: unknowns eliminated side by side, each in one node; `blocks`: those that share a scale; `last`: nodes
 * eliminated last; `points`: see `symbolicFactor`.
 */
export const layOut = (
  count: number,
  observations: readonly Term[],
  nodes: readonly (readonly number[])[],
  blocks: readonly (readonly number[])[],
  {
    last = [],
    points = new Set(),
    meter = { spent: 0, limit: Number.POSITIVE_INFINITY },
  }: { readonly last?: readonly number[]; readonly points?: ReadonlySet<number>; readonly meter?: Meter } = {},
): Equations => {
  const nodeOf = new Int32Array(count);
  for (const [n, slots] of nodes.entries()) for (const s of slots) nodeOf[s] = n;
  const meets = observations.map((o) => [...new Set(o.unknowns.map((u) => nodeOf[u] as number))]);
  const order = [...minimumDegree(nodes.length, meets, last)].flatMap((n) => nodes[n] ?? []);
  const pattern = symbolicFactor(
    count,
    [...observations.map((o) => o.unknowns), ...nodes],
    Int32Array.from(order),
    points,
  );
  const offsets = new Int32Array(observations.length + 1);
  const places: number[] = [];
  for (const [i, o] of observations.entries()) {
    offsets[i + 1] = (offsets[i] as number) + o.unknowns.length;
    for (const [a, u] of o.unknowns.entries())
      for (const v of o.unknowns.slice(0, a + 1)) places.push(placeOf(pattern, u, v));
  }
  const slots = Int32Array.from(observations.flatMap((o) => o.unknowns));
  const cost = factorCost(pattern) + SLOPES * observations.length;
  return { observations, pattern, offsets, slots, places: Int32Array.from(places), blocks, cost, meter };
};

/** Products in one factor. */
const factorCost = ({ size, starts }: FactorPattern): number => {
  let sum = 0;
  for (let j = 0; j < size; j++) sum += ((starts[j + 1] as number) - (starts[j] as number)) ** 2;
  return sum / 2;
};

/** One observation's gradient, residual and share of the matrix cost so many products. */
const SLOPES = 1000;

/** A network about one point: residuals and slopes in units of each observation's sigma. */
export interface Linearised {
  /** (value − model) / sigma; 0 where the observation is set aside. */
  readonly weightedResiduals: Float64Array;
  /** Slopes over sigma, laid as `Equations.slots`; 0 where set aside. */
  readonly slopes: Float64Array;
  readonly chi2: number;
  /** What rounding alone may do to `chi2`. */
  readonly roundingBound: number;
}

const scratch = new Float64Array(64);

/** `active[i]` false leaves observation i out. */
export const linearise = (system: Equations, x: Float64Array, active: readonly boolean[]): Linearised => {
  const { observations } = system;
  const weightedResiduals = new Float64Array(observations.length);
  const slopes = new Float64Array(system.slots.length);
  let chi2 = 0;
  let roundingBound = 0;
  for (let i = 0; i < observations.length; i++) {
    if (active[i] === false) continue;
    const o = observations[i] as Observation;
    const residual = (o.value - o.model(x, scratch)) / o.sigma;
    weightedResiduals[i] = residual;
    chi2 += residual * residual;
    let terms = Math.abs(o.value) / o.sigma;
    const from = system.offsets[i] as number;
    for (let k = 0; k < o.unknowns.length; k++) {
      const slope = (scratch[k] as number) / o.sigma;
      slopes[from + k] = slope;
      terms += Math.abs(slope * (x[o.unknowns[k] as number] as number));
    }
    roundingBound += 4 * Number.EPSILON * terms * (Math.abs(residual) + Number.EPSILON * terms);
  }
  return { weightedResiduals, slopes, chi2, roundingBound };
};

/** χ² alone. */
export const chi2At = (system: Equations, x: Float64Array, active: readonly boolean[]): number => {
  let sum = 0;
  for (const [i, o] of system.observations.entries()) {
    if (active[i] === false) continue;
    const misfit = (o.value - o.model(x)) / o.sigma;
    sum += misfit * misfit;
  }
  return sum;
};

/** JᵀWJ, each unknown divided by its scale, by place in elimination order. */
export const normalMatrix = (system: Equations, slopes: Float64Array, scales: Float64Array): SymmetricMatrix => {
  const { pattern, offsets, slots, places } = system;
  const diagonal = new Float64Array(pattern.size);
  const lower = new Float64Array(pattern.rows.length);
  let at = 0;
  for (let i = 0; i + 1 < offsets.length; i++) {
    const from = offsets[i] as number;
    const to = offsets[i + 1] as number;
    for (let a = from; a < to; a++) {
      const sa = (slopes[a] as number) * (scales[slots[a] as number] as number);
      for (let b = from; b <= a; b++) {
        const product = sa * (slopes[b] as number) * (scales[slots[b] as number] as number);
        const place = places[at++] as number;
        if (place < 0) diagonal[~place] = (diagonal[~place] as number) + product;
        else lower[place] = (lower[place] as number) + product;
      }
    }
  }
  return { pattern, diagonal, lower };
};

/** JᵀW(value − model): half the downhill slope of χ², by unknown. */
export const gradient = (
  system: Equations,
  { slopes, weightedResiduals }: Pick<Linearised, 'slopes' | 'weightedResiduals'>,
): Float64Array => {
  const { offsets, slots } = system;
  const out = new Float64Array(system.pattern.size);
  for (let i = 0; i < weightedResiduals.length; i++) {
    const residual = weightedResiduals[i] as number;
    for (let a = offsets[i] as number; a < (offsets[i + 1] as number); a++) {
      const slot = slots[a] as number;
      out[slot] = (out[slot] as number) + (slopes[a] as number) * residual;
    }
  }
  return out;
};

/** J v in units of sigma, one per observation. */
export const push = (system: Equations, slopes: Float64Array, v: Float64Array): Float64Array => {
  const { offsets, slots } = system;
  const out = new Float64Array(offsets.length - 1);
  for (let i = 0; i < out.length; i++) {
    let sum = 0;
    for (let a = offsets[i] as number; a < (offsets[i + 1] as number); a++)
      sum += (slopes[a] as number) * (v[slots[a] as number] as number);
    out[i] = sum;
  }
  return out;
};

/**
 * One over the root of each unknown's own information, x and y of a feature alike (so that turning the face changes
 * nothing); 1 where there is none.
 */
export const scalesOf = (system: Equations, slopes: Float64Array): Float64Array => {
  const information = new Float64Array(system.pattern.size);
  for (let a = 0; a < slopes.length; a++) {
    const slot = system.slots[a] as number;
    information[slot] = (information[slot] as number) + (slopes[a] as number) ** 2;
  }
  const scales = new Float64Array(system.pattern.size).fill(1);
  for (const block of system.blocks) {
    const mean = block.reduce((sum, u) => sum + (information[u] as number), 0) / block.length;
    if (mean > 0) for (const u of block) scales[u] = 1 / Math.sqrt(mean);
  }
  return scales;
};
