import type { Measured } from '../measured/points.js';
import { divide } from './divide.js';
import { grids } from './grid.js';
import type { Group } from './group.js';
import { polarOf } from './headings.js';
import { lattices } from './lattice.js';
import { mirroredRing, mirrors, opposites } from './mirror.js';
import { ringSets } from './rings.js';

/** Groups that the centres suggest; the list is bounded and the evidence decides among them. */
export const findGroups = (measured: Measured): readonly Group[] => {
  const all = measured.fasteners;
  const onCircles = ringSets(measured).flatMap((set): readonly Group[] => {
    const divided = divide(measured, set);
    if (set.members.length < ('own' in set.about ? 4 : 2)) return divided;
    const { headings } = polarOf(measured, set.members, set.about);
    return [...divided, { kind: 'circle', members: set.members, about: set.about, headings, diameter: set.diameter }, ...mirroredRing(measured, set)];
  });
  return [...onCircles, ...lattices(measured), ...grids(measured, all), ...mirrors(measured, all), ...opposites(measured, all)];
};

/** Groups among features that a composition leaves single, whose directions may follow the composition's own. */
export const findMore = (measured: Measured, singles: readonly number[], headings: readonly number[]): readonly Group[] => [
  ...grids(measured, singles, headings, singles.length >= 3),
  ...mirrors(measured, singles),
  ...opposites(measured, singles),
];
