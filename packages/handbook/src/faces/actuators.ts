import { type Read, type StandardFace, fitted, mediumPlace, mediumSource, plainFace } from './face.js';

/** Circle, holes, thread, outside, recess H7, its depth, dowel hole H7: mm. */
type Robot = readonly [
  circle: number,
  holes: number,
  thread: string,
  outside: number,
  recess: number,
  depth: number,
  dowel: number,
  read: Read,
  disagree?: string,
];

const M5_OR_M6 = 'the screws of the 31.5 circle are M5 in the designation that makers use, M6 in one published list';
const robots: readonly Robot[] = [
  [25, 4, 'M5', 31.5, 16, 3.5, 5, 'one source'],
  [31.5, 4, 'M5', 40, 20, 3.5, 5, 'two places', M5_OR_M6],
  [40, 4, 'M6', 50, 25, 4, 6, 'two places'],
  [50, 4, 'M6', 63, 31.5, 6, 6, 'two places'],
  [63, 4, 'M6', 80, 40, 6, 6, 'one source', 'the 63 circle has 4 screws in one source and 6 in another'],
  [80, 6, 'M8', 100, 50, 6, 8, 'one source'],
  [
    100,
    6,
    'M8',
    125,
    63,
    6,
    8,
    'one source',
    'the screws of the 100 circle are M8 from memory, M10 in one published list',
  ],
  [
    125,
    6,
    'M10',
    160,
    80,
    6,
    10,
    'one source',
    'the 125 circle has 6 × M10 from memory, 8 × M12 in one published list',
  ],
];

const robotFace = ([circle, holes, thread, outside, recess, depth, dowel, read, disagree]: Robot): StandardFace => {
  const code = `${circle}-${holes}-${thread}`;
  return {
    ...plainFace,
    name: `ISO 9409-1-${code}`,
    also: [
      code,
      `A${code}`,
      `ISO 9409-1-A${code}`,
      `ISO 9409-1-${String(circle).replace('.', ',')}-${holes}-${thread}`,
      `ISO 9409-1 ${circle}`,
    ],
    standard: 'ISO 9409-1:2004, plates of type A',
    what: 'robot wrist flange',
    register: { kind: 'bore', ...fitted(recess, 'H7'), reach: depth },
    holes: {
      count: holes,
      circle,
      thread,
      size: null,
      place: 0.1,
      placeSource: 'ISO 9409-1, position 0.2 mm over all, from memory',
    },
    dowel: { ...fitted(dowel, 'H7'), place: 0.03 },
    outside,
    read,
    source: `a published list of the wrist flanges of fifty robots (circle, screws, thread)${
      read === 'two places'
        ? '; iso9409_1_flange.scad by the University of Hamburg, and a camera maker’s manual (supported flanges)'
        : ''
    }; recess and dowel from memory, except of 50-4-M6`,
    disagree: disagree === undefined ? [] : [disagree],
  };
};

/** Circle, spigot f8 and its height, thread, holes: mm. */
type Valve = readonly [
  code: string,
  circle: number,
  spigot: number,
  height: number,
  thread: string,
  holes: number,
  disagree?: string,
];

const valves: readonly Valve[] = [
  ['F03', 36, 25, 3, 'M5', 4, 'the screws of F03 are M5 in one manual, M6 in another'],
  ['F04', 42, 30, 3, 'M5', 4, 'the screws of F04 are M5 from memory, M6 in the manual'],
  ['F05', 50, 35, 3, 'M6', 4],
  ['F07', 70, 55, 3, 'M8', 4],
  ['F10', 102, 70, 3, 'M10', 4],
  ['F12', 125, 85, 3, 'M12', 4],
  ['F14', 140, 100, 4, 'M16', 4],
  ['F16', 165, 130, 5, 'M20', 4],
  ['F25', 254, 200, 5, 'M16', 8],
  ['F30', 298, 230, 5, 'M20', 8],
];

const valveFace = ([code, circle, spigot, height, thread, holes, disagree]: Valve): StandardFace => ({
  ...plainFace,
  name: `ISO 5211 ${code}`,
  also: [code, `5211 ${code}`],
  standard: 'ISO 5211:2017, flanges of part-turn actuators',
  what: 'valve actuator flange',
  register: { kind: 'spigot', ...fitted(spigot, 'f8'), reach: height },
  holes: { count: holes, circle, thread, size: null, place: mediumPlace(circle), placeSource: mediumSource },
  read: 'from memory',
  source:
    'ISO 5211, circle and spigot from memory; threads read in an ' +
    'actuator’s manual (DOC.IOM.EF.EN rev. 7, 2017, table B-2)',
  disagree: disagree === undefined ? [] : [disagree],
});

/** Wrist flanges of robots (ISO 9409-1) and flanges of valve actuators (ISO 5211). */
export const actuatorFaces = (): readonly StandardFace[] => [...robots.map(robotFace), ...valves.map(valveFace)];
