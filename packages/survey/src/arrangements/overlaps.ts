import { oncePer } from '@fayplate/core';
import type { FeatureKind } from '@fayplate/job';
import type { Network } from '../network/network.js';

/** Rims may seem to cross by this share of the lesser diameter, beside the ± of both: what was taken as round is not quite. */
const SEEMING = 0.01;

/** A feature as a solid of its face; null where it may lie as it likes: an edge, a vacant place, one of no known size. */
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

/** Whether features i and j, by place among the unknowns, would lie in each other's metal with their centres `apart`, mm. */
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

/** Pairs of features of which one would lie in the other's metal: no face is so made, and an arrangement with any is impossible. */
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
