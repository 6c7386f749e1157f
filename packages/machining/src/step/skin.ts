import { byCodeUnit } from '@fayplate/core';
import type { Plate } from '@fayplate/plate';
import { type Rim, rimOf } from './rim.js';
import { type Lie, type Ring, lie } from './ring.js';
import { type Piece, raised, reach, ringOf, voids } from './voids.js';

/**
 * A wall between two heights; `outward`: metal lies inside the ring. A cone's point is an upper or lower ring of no
 * radius.
 */
export interface Wall {
  readonly name: string;
  readonly from: number;
  readonly to: number;
  readonly lower: Ring;
  readonly upper: Ring;
  readonly outward: boolean;
}

/** A flat at one height that looks up or down, between an outer ring and the rings inside it. */
export interface Flat {
  readonly z: number;
  readonly up: boolean;
  readonly outer: Ring;
  readonly inner: readonly Ring[];
}

export interface Skin {
  readonly walls: readonly Wall[];
  readonly flats: readonly Flat[];
}

type SkinMade = { readonly ok: true; readonly skin: Skin } | { readonly ok: false; readonly faults: readonly string[] };

/**
 * What bounds the metal in one layer between two heights: rings with metal inside and rings with void inside, none of
 * the latter within another.
 */
interface Layer {
  readonly from: number;
  readonly to: number;
  readonly metal: readonly Bound[];
  readonly voids: readonly Bound[];
  /** Notches that are open in it; null beyond the plate's own faces. */
  readonly notches: readonly number[] | null;
}

/** A boundary that may run through several layers. `id` names the piece that it belongs to. */
interface Bound {
  readonly id: string;
  readonly at: (z: number) => Ring;
  readonly span: readonly [number, number];
}

/**
 * The skin of the plate's metal. The plate is sliced at every height where something begins or ends; between two
 * heights every section is the same rings, and the flats at a height are where metal lies on one side only. Faults
 * where two cuts cross or touch, or a cut breaks out of the outline.
 */
export const skinOf = (plate: Plate): SkinMade => {
  const faults = new Set<string>();
  const rim = rimOf(plate, faults);
  const [low, high] = reach(plate);
  const pieces = voids(plate);
  const spigots = raised(plate);
  const broken = pieces
    .filter((p) => p.lower === 0 || p.upper === 0)
    .filter((p) => p.from <= low + 1e-6 || p.to >= high - 1e-6);
  if (broken.length > 0)
    return { ok: false, faults: broken.map((p) => `the drill’s point of ${p.name} comes through the far side`) };
  const heights = heightsOf([0, plate.thickness, low, high, ...rim.heights, ...pieces.flatMap((p) => [p.from, p.to])]);
  const layers = heights
    .slice(1)
    .map((to, k) => layerOf(heights[k] ?? 0, to, { rim, spigots, pieces, thickness: plate.thickness }, faults));
  const flats = heights.flatMap((z, k) => flatsAt(z, [layers[k - 1] ?? null, layers[k] ?? null], rim, faults));
  return faults.size > 0 ? { ok: false, faults: [...faults] } : { ok: true, skin: { walls: wallsOf(layers), flats } };
};

const heightsOf = (all: readonly number[]): readonly number[] =>
  all.toSorted((a, b) => a - b).filter((z, i, sorted) => i === 0 || z - (sorted[i - 1] ?? z) > 1e-7);

interface Metal {
  readonly rim: Rim;
  readonly spigots: readonly Piece[];
  readonly pieces: readonly Piece[];
  readonly thickness: number;
}

const layerOf = (from: number, to: number, { rim, spigots, pieces, thickness }: Metal, faults: Set<string>): Layer => {
  const middle = (from + to) / 2;
  const bound = (p: Piece): Bound => ({
    id: `${p.name} ${p.from} ${p.to} ${p.lower} ${p.upper}`,
    at: (z) => ringOf(p, z),
    span: [p.from, p.to],
  });
  const lives = (p: Piece): boolean => p.from < middle && p.to > middle;
  const notches = middle > 0 && middle < thickness ? rim.openAt(middle) : null;
  const outline = notches === null ? null : rim.less(notches);
  const metal: readonly Bound[] =
    outline !== null
      ? [{ id: outline.key, at: () => outline, span: [0, thickness] }]
      : spigots.filter(lives).map(bound);
  const open = pieces.filter(lives).map(bound);
  const inMetal = open.filter((v) =>
    metal.some((m) => {
      const how = lie(v.at(middle), m.at(middle));
      if (how === 'crossing' || how === 'around' || how === 'same')
        faults.add(
          `${v.at(middle).name} breaks out of ` +
            (m.at(middle).name === 'outline' ? 'the plate’s outline' : m.at(middle).name),
        );
      return how === 'inside';
    }),
  );
  return { from, to, metal, voids: outermost(inMetal, middle, faults), notches };
};

/** Voids that lie in no other void of the layer; of equal ones the first. */
const outermost = (all: readonly Bound[], z: number, faults: Set<string>): readonly Bound[] =>
  all.filter((v, i) =>
    all.every((w, j) => {
      if (i === j) return true;
      const how = lies(v.at(z), w.at(z), faults);
      return !(how === 'inside' || (how === 'same' && j < i));
    }),
  );

const crossing = (a: string, b: string): string => `${[a, b].sort(byCodeUnit).join(' and ')} break into each other`;

/**
 * Where metal lies below and not above it looks up, and the other way about. Each ring's own field is what lies in it
 * and in none of the rings within.
 */
const flatsAt = (
  z: number,
  [below, above]: readonly [Layer | null, Layer | null],
  rim: Rim,
  faults: Set<string>,
): readonly Flat[] => {
  const rings = new Map<string, Ring>();
  // Where a notch begins or ends, the outline is what stays on both sides and what is taken on one.
  const changing = [...new Set([...(below?.notches ?? []), ...(above?.notches ?? [])])];
  const parted = (notches: readonly number[]): readonly Ring[] => [
    rim.less(changing),
    ...changing.filter((k) => !notches.includes(k)).map(rim.taken),
  ];
  const change = below?.notches != null && above?.notches != null && changing.length > 0;
  const section = (layer: Layer | null): { metal: readonly Ring[]; voids: readonly Ring[] } => {
    const laid = (bounds: readonly Bound[]): readonly Ring[] =>
      bounds.map((b) => b.at(z)).filter((r) => r.capsule === null || r.capsule.radius > 1e-9);
    const metal = change && layer?.notches != null ? parted(layer.notches) : laid(layer?.metal ?? []);
    return { metal, voids: laid(layer?.voids ?? []) };
  };
  const [b, a] = [section(below), section(above)];
  for (const r of [...b.metal, ...b.voids, ...a.metal, ...a.voids]) if (!rings.has(r.key)) rings.set(r.key, r);
  const all = [...rings.values()];
  const holder = (r: Ring): readonly Ring[] => all.filter((o) => o !== r && lies(r, o, faults) === 'inside');
  const holders = new Map(all.map((r) => [r.key, new Set(holder(r).map((o) => o.key))]));
  const inRing = (field: Ring, r: Ring): boolean =>
    field.key === r.key || (holders.get(field.key)?.has(r.key) ?? false);
  const solid = (field: Ring, s: typeof b): boolean =>
    s.metal.some((m) => inRing(field, m)) && !s.voids.some((v) => inRing(field, v));
  return all.flatMap((field): readonly Flat[] => {
    const up = solid(field, b);
    if (up === solid(field, a)) return [];
    const depth = holders.get(field.key)?.size ?? 0;
    const inner = all.filter(
      (r) => (holders.get(r.key)?.has(field.key) ?? false) && holders.get(r.key)?.size === depth + 1,
    );
    return [{ z, up, outer: field, inner }];
  });
};

const lies = (r: Ring, o: Ring, faults: Set<string>): Lie => {
  const how = lie(r, o);
  if (how === 'crossing') faults.add(crossing(r.name, o.name));
  return how;
};

/** One wall for each run of layers that a boundary lives in. */
const wallsOf = (layers: readonly Layer[]): readonly Wall[] => {
  const walls: Wall[] = [];
  const open = new Map<string, { readonly bound: Bound; readonly from: number; readonly outward: boolean }>();
  const close = (id: string, to: number): void => {
    const run = open.get(id);
    if (run === undefined) return;
    const lower = run.bound.at(run.from);
    walls.push({ name: lower.name, from: run.from, to, lower, upper: run.bound.at(to), outward: run.outward });
    open.delete(id);
  };
  for (const layer of layers) {
    const here = new Map(
      [...layer.metal.map((b) => ({ b, outward: true })), ...layer.voids.map((b) => ({ b, outward: false }))].map(
        (run) => [run.b.id, run],
      ),
    );
    for (const id of open.keys()) if (!here.has(id)) close(id, layer.from);
    for (const [id, { b, outward }] of here) if (!open.has(id)) open.set(id, { bound: b, from: layer.from, outward });
  }
  for (const id of open.keys()) close(id, layers.at(-1)?.to ?? 0);
  return walls;
};
