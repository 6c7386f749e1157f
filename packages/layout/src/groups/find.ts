import type { Measured } from '../measured/points.js';
import { logAbout, kinds } from '../prior/structure.js';
import { logOccupied } from '../prior/divisions.js';
import { divide } from './divide.js';
import type { About, Group } from './group.js';
import { polarOf } from './headings.js';
import { ringSets } from './rings.js';

/** Groups that the centres suggest; the list is bounded and the evidence decides among them. */
export const findGroups = (measured: Measured): readonly Group[] => {
  const sets = ringSets(measured);
  return sets.flatMap((set): readonly Group[] => {
    const divided = divide(measured, set);
    if (set.members.length < ('own' in set.about ? 4 : 2)) return divided;
    const { headings } = polarOf(measured, set.members, set.about);
    return [...divided, { kind: 'circle', members: set.members, about: set.about, headings, diameter: set.diameter }];
  });
};

const logAboutOf = (about: About, measured: Measured): number => {
  const which = 'own' in about ? 'own' : about.feature === measured.centres[0] ? 'first' : 'other';
  return logAbout(which, measured.centres.length);
};

/** Log prior of a group given its members: its kind, what it is about, and how its places are taken. */
export const logGroup = (group: Group, measured: Measured): number => {
  const about = logAboutOf(group.about, measured);
  switch (group.kind) {
    case 'divided':
      return Math.log(kinds.divided) + about + logOccupied(group.divisions, group.members.length);
    case 'circle':
      return Math.log(kinds.circle) + about;
    case 'grid':
      return Math.log(kinds.grid) + about;
    default:
      return Math.log(kinds.mirrored) + about;
  }
};
