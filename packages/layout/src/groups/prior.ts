import type { Measured } from '../measured.js';
import { gridSteps, logFactorial, logPairings, logSum } from '../prior/length.js';
import { logArray, logOccupied } from '../prior/places.js';
import { kinds, logAbout } from '../prior/structure.js';
import { type About, type Grid, type Group, type Mirrored, type PriorDensity, priorDensityOf } from './group.js';

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
          priorDensityOf(measured),
          'feature' in group.about && measured.centres.includes(group.about.feature),
        )
      );
    case 'opposite':
      return Math.log(kinds.opposite) + about - logPairings(group.pairs.length, 0);
    default:
      return Math.log(kinds.mirrored) + about + logMirrored(group);
  }
};

/**
 * Chance that what is set out by coordinates is also symmetrical about an axis: old inch work mostly is. Else, as often
 * as not, its places share their coordinates: a hole is marked off on a line that is already scribed.
 */
const SYMMETRICAL = 0.5;
const SHARED = 0.25;
/** Chance of a step that is none of the usual ones: a stated grid may have any. */
const SELDOM = 0.01;

/**
 * Pairs of places that are each other's image across one axis of a grid, and places on it; null where some place has no
 * image.
 */
const symmetryOf = (steps: Grid['steps'], across: 0 | 1): { readonly pairs: number; readonly on: number } | null => {
  const key = (s: readonly [number, number]): string => s.join(' ');
  const all = new Set(steps.map(key));
  const image = ([i, j]: readonly [number, number]): readonly [number, number] => (across === 0 ? [-i, j] : [i, -j]);
  if (!steps.every((s) => all.has(key(image(s))))) return null;
  const on = steps.filter((s) => s[across] === 0).length;
  return { pairs: (steps.length - on) / 2, on };
};

/**
 * Log prior of one coordinate of every place where each may be shared: a place takes a line with chance in proportion
 * to the places that are on it already, and a new one with the chance of one place; the axis itself counts as one place
 * (Ewens 1972, from memory; the order of the places makes no difference). `cell`: log prior mass of one step.
 */
export const logLines = (coordinates: readonly number[], cell: number): number => {
  const on = new Map<number, number>();
  for (const c of coordinates) on.set(c, (on.get(c) ?? 0) + 1);
  const lines = [...on].map(([c, n]) => (c === 0 ? logFactorial(n) : logFactorial(n - 1) + cell));
  return lines.reduce((a, b) => a + b, 0) - logFactorial(coordinates.length + 1);
};

/**
 * Log prior of the places on a grid. Each by itself has the prior mass of one cell; of a symmetrical half only one of
 * each pair is chosen, with the pairs matched, and a place on the axis is chosen along it alone; or both coordinates
 * are shared as `logLines` has it. Four quarter turns name the same grid. `central`: whether it counts from the face's
 * centre; from one of its own features no axis is more likely than another to be one of symmetry.
 */
const logGridPlaces = ({ step, steps }: Grid, { logPlane, logSize }: PriorDensity, central: boolean): number => {
  const cell = 2 * Math.log(step) + logPlane;
  const symmetrical = (central ? ([0, 1] as const) : []).flatMap((across) => {
    const s = symmetryOf(steps, across);
    if (s === null || s.pairs === 0) return [];
    return [
      Math.log(SYMMETRICAL / 2) -
        Math.log(Math.floor(steps.length / 2) + 1) -
        logPairings(s.pairs, s.on) +
        s.pairs * cell +
        s.on * (Math.log(2 * step) + logSize),
    ];
  });
  const shared =
    Math.log(SHARED) +
    logLines(
      steps.map((s) => s[0]),
      cell / 2,
    ) +
    logLines(
      steps.map((s) => s[1]),
      cell / 2,
    );
  return (
    Math.log(4) +
    Math.log(gridSteps.find((g) => Math.abs(g.step - step) < 1e-9)?.chance ?? SELDOM) +
    logSum([Math.log(1 - SYMMETRICAL - SHARED) + steps.length * cell, shared, ...symmetrical])
  );
};
