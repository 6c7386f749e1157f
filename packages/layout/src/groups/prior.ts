import type { Measured } from '../measured/points.js';
import { logArray } from '../prior/arrays.js';
import { logOccupied } from '../prior/divisions.js';
import { logFactorial, logSum } from '../prior/logs.js';
import { kinds, logAbout } from '../prior/structure.js';
import { gridSteps } from './grid.js';
import { type About, type Grid, type Group, type Mirrored, type Room, roomOf } from './group.js';

const logAboutOf = (about: About, measured: Measured): number => {
  if ('own' in about) return logAbout('own', measured.centres.length);
  const k = measured.centres.indexOf(about.feature);
  return k < 0 ? -Math.log(measured.fasteners.length) : logAbout(k === 0 ? 'first' : 'other', measured.centres.length);
};

/** Log of the number of ways to match features in p pairs with m left over. */
const logPairings = (p: number, m: number): number => logFactorial(2 * p + m) - logFactorial(m) - logFactorial(p) - p * Math.log(2);

const logMirrored = ({ pairs, on, members, diameter }: Mirrored): number => {
  const counts = -Math.log(Math.floor(members.length / 2) + 1);
  const circle = diameter === null ? 0 : on.length * Math.log(0.5);
  return Math.log(0.5) + counts + circle - logPairings(pairs.length, on.length);
};

/** Pairs of places that are each other's image across one axis of a grid, and places on it; null where some place has no image. */
const symmetryOf = (steps: Grid['steps'], across: 0 | 1): { readonly pairs: number; readonly on: number } | null => {
  const key = (s: readonly [number, number]): string => s.join(' ');
  const all = new Set(steps.map(key));
  const image = ([i, j]: readonly [number, number]): readonly [number, number] => (across === 0 ? [-i, j] : [i, -j]);
  if (!steps.every((s) => all.has(key(image(s))))) return null;
  const on = steps.filter((s) => s[across] === 0).length;
  return { pairs: (steps.length - on) / 2, on };
};

/** Chance that what is set out by coordinates is also symmetrical about an axis: old inch work mostly is. */
const SYMMETRICAL = 0.5;

/**
 * Log prior of the places on a grid: each has the prior mass of one cell; of a symmetrical half only one of each pair is chosen, with the pairs
 * matched, and a place on the axis is chosen along it alone. Four quarter turns name the same grid.
 */
const logGridPlaces = ({ step, steps }: Grid, { logPlane, logSize }: Room): number => {
  const cell = 2 * Math.log(step) + logPlane;
  const symmetrical = ([0, 1] as const).flatMap((across) => {
    const s = symmetryOf(steps, across);
    if (s === null || s.pairs === 0) return [];
    return [Math.log(SYMMETRICAL / 2) - Math.log(Math.floor(steps.length / 2) + 1) - logPairings(s.pairs, s.on) + s.pairs * cell + s.on * (Math.log(2 * step) + logSize)];
  });
  return Math.log(4) - Math.log(gridSteps.length) + logSum([Math.log(1 - SYMMETRICAL) + steps.length * cell, ...symmetrical]);
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
      return Math.log(kinds.grid) + about + logGridPlaces(group, roomOf(measured));
    case 'opposite':
      return Math.log(kinds.opposite) + about - logPairings(group.pairs.length, 0);
    default:
      return Math.log(kinds.mirrored) + about + logMirrored(group);
  }
};
