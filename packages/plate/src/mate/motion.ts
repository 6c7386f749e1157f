import { type Motion, compose, flipX, identity, rotation } from '@fayplate/core';
import type { Face } from '@fayplate/job';

/**
 * From a face's own frame (x, y as viewed) into the plate's, which is seen from side B looking at the first face.
 * An eye on the plate's side of the first face sees it as the plate is drawn; an eye behind it sees x the other way
 * round. The second face lies toward the viewer, so it is the other way about, and then it turns clockwise by `clocking`.
 */
export const motionOf = (viewed: Face['viewed'], place: 'first' | 'second', clocking: number): Motion => {
  const fromBehind = viewed === 'from behind' || viewed === 'off the old plate';
  if (place === 'first') return fromBehind ? flipX : identity;
  return compose(rotation(-clocking), fromBehind ? identity : flipX);
};
