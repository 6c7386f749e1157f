import { type Circle, type Path, type Point, distance } from '@fayplate/core';
import type { Desk } from '../desk.js';
import { hullOfCircles } from '../outline/hull.js';
import { depthInside } from '../outline/inside.js';
import { rimOnDesk } from '../outline/rim.js';
import type { Side } from '../types.js';

/** Where a part's metal lies against the plate, as far as the job tells. */
export interface Footprint {
  readonly face: string;
  readonly side: Side;
  /** Null where nothing tells. */
  readonly path: Path | null;
  /**
   * Whether `path` is the part's own rim; else it is only the hull of its fasteners, and the metal may reach further.
   */
  readonly known: boolean;
  /** Openings in the part: its bores, and how deep each is said to go; null where that is not said. */
  readonly openings: readonly (Circle & { readonly deep?: number | null })[];
}

export const footprintOf = (desk: Desk, index: 0 | 1): Footprint => {
  const face = desk.faces[index];
  const own = desk.placed.filter((p) => p.face === face);
  const openings = own
    .filter((p) => p.feature.kind === 'bore' && p.diameter !== null)
    .map((p) => ({ centre: p.at, radius: (p.diameter ?? 0) / 2, deep: p.feature.deep }));
  const rim = face.rim.length > 0 ? rimOnDesk(desk, face, 0) : null;
  const belt = rim !== null && rim.ok ? rim.path : null;
  const fasteners = own
    .filter((p) => p.feature.kind === 'stud' || p.feature.kind === 'hole' || p.feature.kind === 'dowel')
    .map((p) => ({ centre: p.at, radius: (p.diameter ?? 0) / 2 }));
  const hull = fasteners.length >= 2 ? hullOfCircles(fasteners) : null;
  return { face: face.name, side: desk.mated[index].side, path: belt ?? hull, known: belt !== null, openings };
};

/**
 * Whether something round, standing up from the plate by so much (mm), would meet the part: in an opening it may meet
 * the floor.
 */
export const meets = (footprint: Footprint, at: Point, radius: number, stands = 0): 'yes' | 'no' | 'not known' => {
  const over = footprint.openings.find((o) => distance(o.centre, at) + radius <= o.radius);
  if (over !== undefined) return stands > (over.deep ?? Infinity) ? 'yes' : 'no';
  if (footprint.path === null) return 'not known';
  if (depthInside(at, footprint.path) + radius > 0) return 'yes';
  return footprint.known ? 'no' : 'not known';
};
