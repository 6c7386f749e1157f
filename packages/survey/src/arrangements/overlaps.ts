import { centroid, oncePer, wrapAngle } from '@fayplate/core';
import type { FeatureKind } from '@fayplate/job';
import type { Network } from '../network/network.js';

/** Rims may seem to cross by this share of the smaller diameter, beyond the ± of both: nothing is quite round. */
const SEEMING = 0.01;

/** A feature as a solid of its face; null where it may lie anywhere: an edge, a vacant place, one of unknown size. */
interface Solid {
  readonly kind: FeatureKind;
  /** mm. */
  readonly radius: number;
  /** mm, of the radius. */
  readonly plusMinus: number;
}

interface Solids {
  /** By place among the unknowns. */
  readonly list: readonly (Solid | null)[];
  /** Pairs of places, the lesser first, of which a `wall` reading says that one lies in the other. */
  readonly walled: ReadonlySet<string>;
}

const solidsOf = oncePer(({ face, unknowns, readings }: Network): Solids => {
  const ids = [...unknowns.features.keys()];
  const numberOf = new Map(ids.map((id, i) => [id, i]));
  const measured = new Map(readings.flatMap((r) => (r.kind === 'dia' ? [[r.features[0], r.value] as const] : [])));
  const features = new Map(face.features.map((f) => [f.id, f]));
  const list = ids.map((id): Solid | null => {
    const f = features.get(id);
    const diameter = measured.get(id) ?? f?.diameter?.value ?? null;
    if (f === undefined || diameter === null || f.vacant || f.kind === 'edge') return null;
    return { kind: f.kind, radius: diameter / 2, plusMinus: (f.diameter?.plusMinus ?? 0) / 2 };
  });
  const walls = readings.flatMap((r) => {
    const [a, b] = r.features.map((id) => numberOf.get(id) ?? -1);
    return r.kind !== 'wall' || a === undefined || b === undefined ? [] : [`${Math.min(a, b)} ${Math.max(a, b)}`];
  });
  return { list, walled: new Set(walls) };
}, new WeakMap<Network, Solids>());

/** Whether one may lie whole within the other: in a spigot's face or a bore, or a boss round or inside anything. */
const mayNest = (inner: Solid, outer: Solid): boolean =>
  outer.kind === 'bore' || outer.kind === 'spigot' || outer.kind === 'boss' || inner.kind === 'boss';

/**
 * Whether features i and j, by place among the unknowns, would lie in each other's metal with their centres `apart`,
 * mm.
 */
export const wouldOverlap = (network: Network, i: number, j: number, apart: number): boolean => {
  const { list, walled } = solidsOf(network);
  const [f, g] = [list[i] ?? null, list[j] ?? null];
  if (f === null || g === null) return false;
  const [inner, outer] = f.radius <= g.radius ? [f, g] : [g, f];
  const seeming = SEEMING * 2 * inner.radius + inner.plusMinus + outer.plusMinus;
  if (apart >= outer.radius + inner.radius - seeming) return false;
  if (mayNest(inner, outer) && apart <= outer.radius - inner.radius + seeming) return false;
  return !walled.has(`${Math.min(i, j)} ${Math.max(i, j)}`);
};

/** Pairs of features of which one would lie in the other's metal: an arrangement with any such pair is impossible. */
export const overlapsAt = (network: Network, x: Float64Array): readonly (readonly [string, string])[] => {
  const { list } = solidsOf(network);
  const round = [...network.unknowns.features.values()]
    .map((f, i) => ({ id: f.id, i, x: x[f.x] as number, y: x[f.y] as number, r: list[i]?.radius ?? null }))
    .flatMap((f) => (f.r === null ? [] : [{ ...f, r: f.r }]))
    .sort((f, g) => f.x - f.r - (g.x - g.r));
  const found: (readonly [string, string])[] = [];
  for (const [n, f] of round.entries()) {
    for (let m = n + 1; m < round.length; m++) {
      const g = round[m];
      if (g === undefined || g.x - g.r > f.x + f.r) break;
      if (!wouldOverlap(network, f.i, g.i, Math.hypot(f.x - g.x, f.y - g.y))) continue;
      found.push(f.i < g.i ? [f.id, g.id] : [g.id, f.id]);
    }
  }
  return found;
};

/**
 * A clock is read by eye: one standard deviation of it, radians, 17°, so that a slip of an hour is common and one of
 * four hours is not. `STRAY`: the share of clocks that are of another feature or mistyped, and may lie anywhere;
 * `VOID`: all the clocks of a face together count about as much as one misread reading (`SLIP_COST`), since they may
 * have been written for another view or copied from another face. All three are judgements: with them rings whose
 * clocks are an hour out here and there are decided about as often as by one who knows how often (see
 * `bench/rings.ts`).
 */
const SIGMA = 0.3;
const STRAY = 0.01;
const VOID = 1e-4;
/** Turns are tried at so many of the clocks at most. */
const MOST_TURNS = 48;

const PEAK = (1 - STRAY) / (SIGMA * Math.sqrt(2 * Math.PI)) + STRAY / (2 * Math.PI);

/**
 * −2 log of how likely a clock is to be off by so much, beside one that is right: 3 for an hour, 11 for two, never
 * more than 14.
 */
const costOf = (off: number): number => {
  const near = ((1 - STRAY) / (SIGMA * Math.sqrt(2 * Math.PI))) * Math.exp(-0.5 * (off / SIGMA) ** 2);
  return -2 * Math.log((near + STRAY / (2 * Math.PI)) / PEAK);
};

const bounded = (sum: number): number => -2 * Math.log((1 - VOID) * Math.exp(-sum / 2) + VOID);

/**
 * Direction of each feature with a clock about the centre (or the mean of the centres), less its clock, in one hand,
 * radians.
 */
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
 * What the clocks have against an arrangement: −2 log of how likely they are as written, beside clocks that are right;
 * 0 to 18.4. The arrangement is turned, and where no bench reading holds it taken in either hand, as agrees best with
 * them.
 */
export const clockCost = (network: Network, x: Float64Array): number => {
  const asIs = costTurned(offsOf(network, x, 1));
  return bounded(network.bench ? asIs : Math.min(asIs, costTurned(offsOf(network, x, -1))));
};
