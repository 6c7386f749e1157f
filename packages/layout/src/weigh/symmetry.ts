import { type Point, add, distance, heading, polar, subtract } from '@fayplate/core';
import type { Measured } from '../measured/points.js';
import type { Candidate } from '../types.js';

/** A line through the centre that all fasteners, not all of them on it, are symmetrical about as they are laid out, to rounding: the one nearest to upright. */
export const followingMirror = (measured: Measured, points: readonly Point[], centre: Point): Candidate['mirror'] => {
  const some = measured.fasteners.map((f) => points[f] ?? centre);
  const [first] = some;
  if (first === undefined || some.length < 2) return null;
  const angle = (p: Point): number => heading(subtract(p, centre));
  const axes = some
    .flatMap((p) => [(angle(first) + angle(p)) / 2, (angle(first) + angle(p) + Math.PI) / 2])
    .map((a) => a - Math.PI * Math.floor(a / Math.PI));
  const near = 1e-7 * measured.room;
  const holds = (axis: number): boolean =>
    some.some((p) => distance(p, centre) * Math.abs(Math.sin(angle(p) - axis)) > near) &&
    some.every((p) => {
      const image = add(centre, polar(distance(p, centre), 2 * axis - angle(p)));
      return some.some((q) => distance(q, image) < near);
    });
  const [axis] = axes.filter(holds).sort((a, b) => Math.abs(a - Math.PI / 2) - Math.abs(b - Math.PI / 2));
  return axis === undefined
    ? null
    : {
        axis,
        through: centre,
        said: false,
        features: measured.fasteners.map((f) => measured.ids[f] ?? ''),
        pair: null,
      };
};
