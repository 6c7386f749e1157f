import { type Circle, apply } from '@fayplate/core';
import type { Face } from '@fayplate/job';
import type { Desk } from '../desk.js';

export type RimCircles =
  | { readonly ok: true; readonly circles: readonly Circle[] }
  | { readonly ok: false; readonly fault: string };

/**
 * The rim of a part on the plate, in the order written: points as circles of radius `margin`, features as their own circle
 * grown by their margin and this one. Points are in the face's bench frame where its readings fix one, else in the face's own.
 */
export const rimCircles = (desk: Desk, face: Face, margin: number): RimCircles => {
  const mated = desk.mated[face === desk.faces[0] ? 0 : 1];
  if (face.rim.length === 0)
    return {
      ok: false,
      fault: `${face.name} has no \`rim\`: list the points of its outline, or choose another outline`,
    };
  const bench = desk.benches.get(face.name) ?? null;
  const circles: Circle[] = [];
  for (const point of face.rim) {
    if ('at' in point) {
      circles.push({ centre: apply(mated.motion, bench === null ? point.at : apply(bench, point.at)), radius: margin });
      continue;
    }
    const feature = desk.placed.find((p) => p.face === face && p.feature.id === point.feature);
    if (feature === undefined)
      return { ok: false, fault: `the rim of ${face.name} runs round ${point.feature}, whose place is not known` };
    circles.push({ centre: feature.at, radius: (feature.diameter ?? 0) / 2 + point.margin + margin });
  }
  return { ok: true, circles };
};
