import type { Measured } from '../measured/points.js';
import { logArray } from '../prior/arrays.js';
import { logOccupied } from '../prior/divisions.js';
import { kinds, logAbout } from '../prior/structure.js';
import { logGridPlaces } from './grid/prior.js';
import { type About, type Group, type Mirrored, roomOf } from './group.js';
import { logPairings } from './pairings.js';

const logAboutOf = (about: About, measured: Measured): number => {
  if ('own' in about) return logAbout('own', measured.centres.length);
  const k = measured.centres.indexOf(about.feature);
  // A grid without a centre: any of its own features may be its zero, and all say the same.
  return k < 0 ? 0 : logAbout(k === 0 ? 'first' : 'other', measured.centres.length);
};

const logMirrored = ({ pairs, on, members, diameter }: Mirrored): number => {
  const counts = -Math.log(Math.floor(members.length / 2) + 1);
  const circle = diameter === null ? 0 : on.length * Math.log(0.5);
  return Math.log(0.5) + counts + circle - logPairings(pairs.length, on.length);
};

/** Log prior of a group given its members: its kind, what it is about, and how its places are taken. */
export const logGroup = (group: Group, measured: Measured): number => {
  const about = logAboutOf(group.about, measured);
  switch (group.kind) {
    case 'divided':
      return Math.log(kinds.divided) + about + logOccupied(group.divisions, group.members.length);
    case 'circle':
      return Math.log(kinds.circle) + about;
    case 'array':
      return Math.log(kinds.array) + about + logArray(group.columns, group.rows, group.square, group.members.length);
    case 'grid':
      return (
        Math.log(kinds.grid) +
        about +
        logGridPlaces(
          group,
          roomOf(measured),
          'feature' in group.about && measured.centres.includes(group.about.feature),
        )
      );
    case 'opposite':
      return Math.log(kinds.opposite) + about - logPairings(group.pairs.length, 0);
    default:
      return Math.log(kinds.mirrored) + about + logMirrored(group);
  }
};
