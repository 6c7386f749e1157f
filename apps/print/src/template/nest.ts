import { type Path, distance, flatten, pathBox } from '@fayplate/core';
import { type Affine, carry, carryPath, chain, shifted } from '../geometry/affine.js';
import type { Gasket } from '@fayplate/plate';

/** Between gaskets on one sheet, and inside a bore, mm. */
const APART = 6;

/** A gasket with its place on the drawing: plate mm → template mm. */
export interface LaidGasket {
  readonly gasket: Gasket;
  readonly place: Affine;
}

const radiusAbout = (
  path: Path,
): { readonly centre: { readonly x: number; readonly y: number }; readonly radius: number } => {
  const box = pathBox(path);
  const centre = { x: (box.left + box.right) / 2, y: (box.bottom + box.top) / 2 };
  return { centre, radius: Math.max(...flatten(path, 0.1).map((p) => distance(p, centre))) };
};

/**
 * Gaskets side by side, the largest first, each small one inside the bore of a larger where it falls out of it anyway:
 * one sheet of material less.
 */
export const nest = (gaskets: readonly Gasket[], seen: Affine): readonly LaidGasket[] => {
  const size = (g: Gasket): number => radiusAbout(g.outline).radius;
  const order = [...gaskets].sort((a, b) => size(b) - size(a));
  const out: LaidGasket[] = [];
  const free = new Map<LaidGasket, boolean>();
  let right = 0;
  for (const gasket of order) {
    const outline = carryPath(seen, gasket.outline);
    const { centre, radius } = radiusAbout(outline);
    const host = out.find(
      (l) => free.get(l) === true && l.gasket.bore !== null && radius + APART <= l.gasket.bore.diameter / 2,
    );
    const bore = host?.gasket.bore ?? null;
    if (host !== undefined && bore !== null) {
      const to = carry(host.place, bore);
      free.set(host, false);
      const laid = { gasket, place: chain(seen, shifted(to.x - centre.x, to.y - centre.y)) };
      free.set(laid, true);
      out.push(laid);
      continue;
    }
    const box = pathBox(outline);
    const laid = { gasket, place: out.length === 0 ? seen : chain(seen, shifted(right + APART - box.left, 0)) };
    right = (out.length === 0 ? 0 : right + APART - box.left) + box.right;
    free.set(laid, true);
    out.push(laid);
  }
  return out;
};
