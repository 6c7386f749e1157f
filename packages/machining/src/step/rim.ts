import type { Edge, Path, Point } from '@fayplate/core';
import { type Bite, type Plate, type PlateBore, bitten, biteOf, borePath, mouthful } from '@fayplate/plate';
import { type Ring, outlinePath } from './ring.js';

/**
 * The plate's outline at each depth: a notch with a floor is open in some layers and not in others. Notches go by their
 * number.
 */
export interface Rim {
  readonly heights: readonly number[];
  /** Notches that are open at a height. */
  readonly openAt: (z: number) => readonly number[];
  /** The outline without these. */
  readonly less: (open: readonly number[]) => Ring;
  /** What one notch takes of it. */
  readonly taken: (notch: number) => Ring;
}

const same = (p: Point, q: Point): boolean => p.x === q.x && p.y === q.y;

/**
 * A closed path with the run between two of its corners put in the place of another; null where it has no such corners.
 */
const withRun = (path: Path, { start, end, inner }: Bite): Path | null => {
  const edges: Edge[] = [];
  let at = path.start;
  let skipping = false;
  let put = false;
  for (const edge of path.edges) {
    if (same(at, end)) {
      edges.push(...inner);
      skipping = true;
      put = true;
    }
    if (same(at, start)) skipping = false;
    if (!skipping) edges.push(edge);
    at = edge.to;
  }
  return put && (!skipping || same(at, start)) ? { ...path, edges } : null;
};

const spanOf = (b: PlateBore, thickness: number): readonly [number, number] =>
  b.side === 'A' ? [0, b.depth ?? thickness] : [thickness - (b.depth ?? thickness), thickness];

/**
 * The outline with a corner wherever a notch with a floor meets it, so that what changes from layer to layer shares its
 * edges with what stays.
 */
export const rimOf = (plate: Plate, faults: Set<string>): Rim => {
  const notches = plate.bores.filter((b) => b.box?.notch === true && b.depth !== null);
  let whole = outlinePath(plate.outline.path);
  const bites = notches.flatMap((b): readonly { readonly b: PlateBore; readonly bite: Bite }[] => {
    const bite = biteOf(whole, borePath(b));
    if (typeof bite === 'number') {
      faults.add(`${b.id} is no notch of the plate’s outline`);
      return [];
    }
    whole = { start: bite.start, edges: [...bite.rest, ...bite.mouth], closed: true };
    return [{ b, bite }];
  });
  const rings = new Map<string, Ring>();
  const ring = (key: string, name: string, path: () => Path): Ring => {
    const known = rings.get(key) ?? { key, name, path: path(), capsule: null };
    rings.set(key, known);
    return known;
  };
  return {
    heights: bites.flatMap(({ b }) => spanOf(b, plate.thickness)),
    openAt: (z) =>
      bites.flatMap(({ b }, k) => {
        const [from, to] = spanOf(b, plate.thickness);
        return z > from && z < to ? [k] : [];
      }),
    less: (open) =>
      ring(['outline', ...open].join(' '), 'outline', () =>
        open.reduce((path, k) => {
          const own = bites[k];
          const left = own === undefined ? null : bites.length === 1 ? bitten(own.bite) : withRun(path, own.bite);
          if (left === null) faults.add(`${own?.b.id ?? 'a notch'} and another notch break into each other`);
          return left ?? path;
        }, whole),
      ),
    taken: (k) =>
      ring(`taken ${k}`, bites[k]?.b.id ?? '', () => (bites[k] === undefined ? whole : mouthful(bites[k].bite))),
  };
};
