import type { Point } from '@fayplate/core';
import type { Measured } from '../../measured/points.js';
import type { About } from '../group.js';
import { at, centreNear, reach } from '../near.js';

/** What a pattern with this middle may be about: a given centre that is near enough, and in any case a middle of its own. */
export const aboutMiddle = (measured: Measured, members: readonly number[], middle: Point): readonly About[] => {
  const [feature] = measured.centres;
  const own: About =
    feature === undefined ? { own: middle } : { own: middle, from: { feature, at: at(measured, feature) } };
  const near = centreNear(measured, middle, reach(measured, members.slice(0, 2)));
  return near === null ? [own] : [{ feature: near }, own];
};
