import type { Point } from '@fayplate/core';
import type { Measured } from '../../measured/points.js';
import type { About } from '../group.js';
import { centreNear, reach } from '../near.js';

/** What a pattern with this middle may be about: a given centre that is near enough, and in any case a middle of its own. */
export const aboutMiddle = (measured: Measured, members: readonly number[], middle: Point): readonly About[] => {
  const near = centreNear(measured, middle, reach(measured, members.slice(0, 2)));
  return near === null ? [{ own: middle }] : [{ feature: near }, { own: middle }];
};
