import type { Measured } from '../measured.js';
import { divide } from './divide.js';
import { grids } from './grid.js';
import type { Group } from './group.js';
import { polarOf } from './headings.js';
import { lattices } from './lattice.js';
import { mirroredRing, mirrors, opposites, pairsAbout } from './mirror.js';
import { type RingSet, ringSets } from './rings.js';

const onCircle = (measured: Measured, set: RingSet): readonly Group[] => {
  const divided = divide(measured, set);
  if (set.members.length < ('own' in set.about ? 4 : 2)) return divided;
  const { headings } = polarOf(measured, set.members, set.about);
  return [...divided, { kind: 'circle', members: set.members, about: set.about, headings, diameter: set.diameter }];
};

/**
 * Groups that the centres suggest; the list is bounded and the evidence decides among them. Those that place features
 * outright:
 */
export const findPlaced = (measured: Measured, sets: readonly RingSet[]): readonly Group[] => [
  ...sets.flatMap((set) => onCircle(measured, set)),
  ...lattices(measured, measured.fasteners),
  ...grids(measured, measured.fasteners),
];

/** … and those that only say how features mirror one another. */
export const findSymmetries = (measured: Measured, sets: readonly RingSet[]): readonly Group[] => [
  ...sets.flatMap((set) => mirroredRing(measured, set)),
  ...mirrors(measured, measured.fasteners),
  ...opposites(measured, measured.fasteners),
];

/** The groups that rough work may have been meant for: equal divisions, rows and rectangular patterns. */
export const findRegular = (measured: Measured): readonly Group[] => [
  ...ringSets(measured).flatMap((set) => divide(measured, set)),
  ...lattices(measured, measured.fasteners),
];

/**
 * Circles among features that a composition leaves single: a pair of dowels is easily crowded out of the whole face's
 * list.
 */
const circlesAmong = (measured: Measured, singles: readonly number[]): readonly Group[] => {
  if (singles.length === measured.fasteners.length) return [];
  const alone = { ...measured, fasteners: singles };
  return ringSets(alone).flatMap((set) => onCircle(alone, set));
};

/** Groups among features that a composition leaves single, whose directions may follow the composition's own. */
export const findMore = (
  measured: Measured,
  singles: readonly number[],
  headings: readonly number[],
): readonly Group[] => [
  ...circlesAmong(measured, singles),
  ...grids(measured, singles, headings, singles.length >= 3),
  ...lattices(measured, singles),
  ...mirrors(measured, singles),
  ...(headings.length > 0 ? pairsAbout(measured, singles) : []),
  ...opposites(measured, singles),
];
