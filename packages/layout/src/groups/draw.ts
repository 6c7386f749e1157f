import { linear, nothing } from '../fit/construction.js';
import type { Drafting, Linear } from '../fit/construction.js';
import { freeSize, sizeFamilies } from '../prior/length.js';
import { type Divided, type Drawn, type Grid, type Group, LOG_TURN, type Mirrored, type Ring, type Room, centreParameters } from './group.js';

const circleSize = (diameter: number, drafting: Drafting, room: Room): { readonly parameter: number; readonly size: number } => {
  const parameter = drafting.parameter(diameter, room.logSize);
  return { parameter, size: drafting.quantity({ what: 'size', value: linear(0, [parameter, 1]), families: sizeFamilies, free: freeSize }) };
};

/** A direction: a parameter where it is found, a constant where it is held. */
const bearingOf = (parameter: number | null, held: number, turn: number): Linear => (parameter === null ? linear(held + turn) : linear(turn, [parameter, 1]));

const drawDivided = (group: Divided, drafting: Drafting, room: Room): Drawn => {
  const centre = centreParameters(group.about, drafting);
  const { parameter, size } = circleSize(group.diameter, drafting, room);
  const heading = group.held ? null : drafting.parameter(group.heading, LOG_TURN);
  for (const [k, member] of group.members.entries()) {
    const turn = (-2 * Math.PI * (group.places[k] ?? Number.NaN)) / group.divisions;
    drafting.put(member, { from: centre, turn: bearingOf(heading, group.heading, turn), u: linear(0, [parameter, 0.5]), v: nothing });
  }
  return { group, centre, bearing: heading === null ? null : { parameter: heading, fold: group.divisions }, sizes: [size] };
};

const drawRing = (group: Ring, drafting: Drafting, room: Room): Drawn => {
  const centre = centreParameters(group.about, drafting);
  const { parameter, size } = circleSize(group.diameter, drafting, room);
  for (const [k, member] of group.members.entries()) {
    const heading = drafting.parameter(group.headings[k] ?? Number.NaN, LOG_TURN);
    drafting.put(member, { from: centre, turn: linear(0, [heading, 1]), u: linear(0, [parameter, 0.5]), v: nothing });
  }
  return { group, centre, bearing: null, sizes: [size] };
};

const drawGrid = (group: Grid, drafting: Drafting): Drawn => {
  const centre = centreParameters(group.about, drafting);
  const axis = group.held ? null : drafting.parameter(group.axis, LOG_TURN);
  for (const [k, member] of group.members.entries()) {
    const [i, j] = group.steps[k] ?? [Number.NaN, Number.NaN];
    drafting.put(member, { from: centre, turn: bearingOf(axis, group.axis, 0), u: linear(i * group.step), v: linear(j * group.step) });
  }
  return { group, centre, bearing: axis === null ? null : { parameter: axis, fold: 4 }, sizes: [] };
};

const drawMirrored = (_group: Mirrored, _drafting: Drafting, _room: Room): Drawn => {
  throw new Error('not yet');
};

/** Adds a group's parameters, places and sizes to a drawing. */
export const drawGroup = (group: Group, drafting: Drafting, room: Room): Drawn => {
  switch (group.kind) {
    case 'divided':
      return drawDivided(group, drafting, room);
    case 'circle':
      return drawRing(group, drafting, room);
    case 'grid':
      return drawGrid(group, drafting);
    default:
      return drawMirrored(group, drafting, room);
  }
};
