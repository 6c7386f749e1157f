import type { Point } from '@fayplate/core';
import type { Face, Job } from '@fayplate/job';
import { type LocatedFace, locateFace } from '@fayplate/survey';
import type { Places } from './protocol.js';

/** Places drawn last, by the name of their feature; null where a feature has none yet. */
const placesOf = (face: Face, near: Places): ReadonlyMap<string, Point> | null => {
  const places = new Map<string, Point>();
  for (const { id } of face.features) {
    const at = Object.hasOwn(near, id) ? near[id] : undefined;
    if (at === undefined) return null;
    places.set(id, { x: at[0], y: at[1] });
  }
  return places;
};

/**
 * A face located from where it was drawn last: what a key changes is there at once, before the shape is looked for
 * again and before it is known which reading is wrong. Null where that cannot be said yet.
 */
export const locatedSoon = ({ instruments }: Job, face: Face, near: Places): LocatedFace | null => {
  const places = placesOf(face, near);
  if (places === null || face.readings.length === 0) return null;
  const located = locateFace({ face, instruments }, { places, next: false, doubts: false });
  return located.stopped.converged ? located : null;
};
