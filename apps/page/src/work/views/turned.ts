import { type Motion, type Point, apply, compose, rotation } from '@fayplate/core';
import type { LocatedFace, LocatedFeature } from '@fayplate/survey';

/** Places as they lie when the drawing is turned by hand, radians counter-clockwise. */
export const turnedPlaces = (
  places: ReadonlyMap<string, LocatedFeature>,
  by: number,
): ReadonlyMap<string, LocatedFeature> =>
  by === 0 ? places : new Map([...places].map(([id, f]) => [id, turnedFeature(f, rotation(by))]));

const turnedFeature = (f: LocatedFeature, turn: Motion): LocatedFeature => ({
  ...f,
  ...apply(turn, f),
  ellipse95: { ...f.ellipse95, angle: f.ellipse95.angle + turn.turn },
});

const turnedPoints = (points: ReadonlyMap<string, Point>, turn: Motion): ReadonlyMap<string, Point> =>
  new Map([...points].map(([id, p]) => [id, apply(turn, p)]));

/**
 * A face as it is drawn when the drawing is turned by hand, radians counter-clockwise. Its centres as numbers are those
 * of the face's own frame.
 */
export const turnedFace = (located: LocatedFace, by: number): LocatedFace => {
  if (by === 0) return located;
  const turn = rotation(by);
  const { arrangements, bench } = located;
  return {
    ...located,
    features: turnedPlaces(located.features, by),
    bench: bench === null ? null : compose(turn, bench),
    arrangements: {
      ...arrangements,
      rivals: arrangements.rivals.map((r) => ({ ...r, places: turnedPoints(r.places, turn) })),
    },
  };
};
