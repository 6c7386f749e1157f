import { type Read, type StandardFace, between, drilled, fitted, inch, plainFace } from './face.js';

const saeTable =
  'SAE Pump Standards, a table of pump drives (pilot, its height, bolt circles K and S, holes M and R), ' +
  'powertorque.co.za/fpdpad.htm';
const saeSecond =
  'a table of SAE A, B and C flanges (industrialmonitordirect.com, knowledge base, SAE flange standard specifications)';
const place = 0.25;
const placeSource = 'about 0.25 mm, from memory';

/** Letter, code, pilot and its height, bolt circle, holes, hole size; inches. */
type Sae = readonly [
  letter: string,
  code: string,
  pilot: number,
  height: number,
  circle: number,
  holes: 2 | 4,
  hole: number,
  read: Read,
  disagree?: string,
];

const sae: readonly Sae[] = [
  ['AA', '50-2', 2, 0.24, 3.25, 2, 0.406, 'from memory'],
  [
    'A',
    '82-2',
    3.25,
    0.25,
    4.188,
    2,
    0.438,
    'one source',
    `the bolt circle is 4.188 in (106.4 mm) in one table, 4.128 in (104.8 mm) in another`,
  ],
  ['A', '82-4', 3.25, 0.25, 4.188, 4, 0.438, 'from memory'],
  ['B', '101-2', 4, 0.38, 5.75, 2, 0.562, 'two places', 'the holes are 0.562 in in one table, 0.531 in in another'],
  ['B', '101-4', 4, 0.38, 5, 4, 0.562, 'one source'],
  [
    'C',
    '127-2',
    5,
    0.5,
    7.125,
    2,
    0.688,
    'one source',
    'the pilot is 5.000 in in one table, 4.500 in in another; J744 names it for 127 mm, which is 5.000',
  ],
  ['C', '127-4', 5, 0.5, 6.375, 4, 0.562, 'one source'],
  ['D', '152-2', 6, 0.5, 9, 2, 0.812, 'one source'],
  ['D', '152-4', 6, 0.5, 9, 4, 0.812, 'one source'],
  ['E', '165-4', 6.5, 0.625, 12.5, 4, 0.812, 'one source'],
  ['F', '177-4', 7, 0.625, 13.781, 4, 1.062, 'one source'],
];

const saeFace = ([letter, code, pilot, height, circle, holes, hole, read, disagree]: Sae): StandardFace => ({
  ...plainFace,
  name: `SAE ${letter} ${holes}-bolt`,
  also: [
    code,
    `SAE ${code}`,
    `J744 ${code}`,
    `SAE J744 ${code}`,
    `ISO 3019-1 ${code}`,
    `SAE ${holes}-bolt ${letter}`,
    `${holes}-bolt ${letter}`,
    ...(holes === 2 || letter > 'C' ? [`SAE ${letter}`] : []),
  ],
  standard: 'SAE J744 JUN96, table 1, and ISO 3019-1:2001',
  what: 'hydraulic pump or motor mount',
  register: { kind: 'spigot', ...between(inch(pilot), inch(-0.002), 0), reach: inch(height) },
  holes: { count: holes, circle: inch(circle), thread: null, size: between(inch(hole), -0.1, 0.3), place, placeSource },
  read,
  source:
    read === 'from memory' ? 'SAE J744, from memory' : read === 'two places' ? `${saeTable}; ${saeSecond}` : saeTable,
  disagree: disagree === undefined ? [] : [disagree],
});

/** Pilot h8, bolt circle, hole, mm. */
const metric: readonly (readonly [code: string, pilot: number, circle: number, holes: 2 | 4, hole: number])[] = [
  ['63 A2', 63, 85, 2, 9],
  ['80 A2', 80, 109, 2, 11],
  ['100 A2', 100, 140, 2, 14],
  ['125 A2', 125, 180, 2, 18],
  ['160 A2', 160, 224, 2, 22],
  ['80 B4', 80, 103, 4, 9],
  ['100 B4', 100, 125, 4, 11],
  ['125 B4', 125, 160, 4, 14],
  ['160 B4', 160, 200, 4, 18],
  ['180 B4', 180, 224, 4, 18],
  ['200 B4', 200, 250, 4, 22],
];

const metricFace = ([code, pilot, circle, holes, hole]: (typeof metric)[number]): StandardFace => ({
  ...plainFace,
  name: `ISO 3019-2 ${code}`,
  also: [code, code.replace(' ', ''), `${code} HW`, `${code} SW`],
  standard: 'ISO 3019-2:2001, two- and four-bolt flanges',
  what: 'hydraulic pump or motor mount, metric',
  register: { kind: 'spigot', ...fitted(pilot, 'h8'), reach: null },
  holes: { count: holes, circle, thread: null, size: drilled(hole), place, placeSource },
  read: 'from memory',
  source: 'ISO 3019-2, from memory',
});

/** Mounts of hydraulic pumps and motors: SAE J744 (ISO 3019-1) in inches and ISO 3019-2 in millimetres. */
export const pumpFaces = (): readonly StandardFace[] => [...sae.map(saeFace), ...metric.map(metricFace)];
