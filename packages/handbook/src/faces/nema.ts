import { type Read, type StandardFace, between, inch, plainFace } from './face.js';

const standard = 'NEMA MG 1-2021, 4.4.4 (type C face) and 4.4.3 (type D flange)';
const table = 'NEMA MG 1, table 4.4.4, as the Hydraulic Institute’s Engineering Data Book prints it (Motor Dimensions)';
const second = 'a maker’s table of C- and J-face mounting dimensions (NEMA Guidelines, one page)';
const place = inch(0.025);
const placeSource = 'NEMA MG 1, note to table 4.4.4: within 0.025 in of true location (there for 182TC and larger)';

/**
 * The register's tolerance, inches: AK +0.000 −0.003 below 12 in, −0.005 from there on (MG 1, 4.12; limits read in
 * table 18-33).
 */
const registerOf = (ak: number) => ({
  kind: 'spigot' as const,
  ...between(inch(ak), inch(ak < 12 ? -0.003 : -0.005), 0),
});

/** Inches: AJ bolt circle, AK register, BB its height, BD outside, thread, holes, U shaft diameter, AH shaft length. */
type Row = readonly [
  names: string,
  aj: number,
  ak: number,
  bb: number,
  bd: number,
  thread: string,
  holes: number,
  u: number,
  ah: number,
  read: Read,
];

const rows: readonly Row[] = [
  ['42C', 3.75, 3, 0.16, 5, '1/4-20 UNC', 4, 0.375, 1.312, 'two places'],
  ['48C', 3.75, 3, 0.16, 5.625, '1/4-20 UNC', 4, 0.5, 1.69, 'two places'],
  ['56C', 5.875, 4.5, 0.16, 6.5, '3/8-16 UNC', 4, 0.625, 2.06, 'two places'],
  ['143TC 145TC', 5.875, 4.5, 0.16, 6.5, '3/8-16 UNC', 4, 0.875, 2.12, 'two places'],
  ['182TC 184TC', 7.25, 8.5, 0.25, 9, '1/2-13 UNC', 4, 1.125, 2.62, 'two places'],
  ['182TCH 184TCH', 5.875, 4.5, 0.16, 6.5, '3/8-16 UNC', 4, 1.125, 2.62, 'one source'],
  ['213TC 215TC', 7.25, 8.5, 0.25, 9, '1/2-13 UNC', 4, 1.375, 3.12, 'two places'],
  ['254TC 256TC', 7.25, 8.5, 0.25, 10, '1/2-13 UNC', 4, 1.625, 3.75, 'two places'],
  ['284TC 286TC', 9, 10.5, 0.25, 11.25, '1/2-13 UNC', 4, 1.875, 4.38, 'two places'],
  ['324TC 326TC', 11, 12.5, 0.25, 14, '5/8-11 UNC', 4, 2.125, 5, 'one source'],
  ['364TC 365TC', 11, 12.5, 0.25, 14, '5/8-11 UNC', 8, 2.375, 5.62, 'one source'],
  ['404TC 405TC', 11, 12.5, 0.25, 15.5, '5/8-11 UNC', 8, 2.875, 7, 'one source'],
  ['444TC 445TC', 14, 16, 0.25, 18, '5/8-11 UNC', 8, 3.375, 8.25, 'one source'],
];

const cFace = ([names, aj, ak, bb, bd, thread, holes, u, ah, read]: Row): StandardFace => {
  const [first = '', ...rest] = names.split(' ');
  return {
    ...plainFace,
    name: `NEMA ${first}`,
    also: [first, ...rest, ...rest.map((n) => `NEMA ${n}`), ...(first === '56C' ? ['56J', 'NEMA 56J', '56HC'] : [])],
    standard,
    what: 'motor face, tapped holes (type C)',
    register: { ...registerOf(ak), reach: inch(bb) },
    holes: { count: holes, circle: inch(aj), thread, size: null, place, placeSource },
    outside: inch(bd),
    shafts: [{ frame: `NEMA ${first}`, diameter: inch(u), length: inch(ah) }],
    read,
    source: read === 'two places' ? `${table}; ${second}` : table,
    disagree: [],
  };
};

/** Inches: AJ, AK, BD, plain hole. */
const flanges: readonly (readonly [names: string, aj: number, ak: number, bd: number, hole: number])[] = [
  ['143TD 145TD', 10, 9, 11, 0.53],
  ['182TD 184TD', 10, 9, 11, 0.53],
  ['213TD 215TD', 10, 9, 11, 0.53],
  ['254TD 256TD', 12.5, 11, 14, 0.81],
  ['284TD 286TD', 12.5, 11, 14, 0.81],
  ['324TD 326TD', 16, 14, 18, 0.81],
];

const dFlange = ([names, aj, ak, bd, hole]: (typeof flanges)[number]): StandardFace => {
  const [first = '', ...rest] = names.split(' ');
  return {
    ...plainFace,
    name: `NEMA ${first}`,
    also: [first, ...rest, ...rest.map((n) => `NEMA ${n}`)],
    standard,
    what: 'motor flange, plain holes (type D)',
    register: { ...registerOf(ak), reach: inch(0.25) },
    holes: { count: 4, circle: inch(aj), thread: null, size: between(inch(hole), 0, inch(0.01)), place, placeSource },
    outside: inch(bd),
    read: 'from memory',
    source: 'NEMA MG 1, type D flanges, from memory',
  };
};

/** Bolt circle and pilot, inches; width of the square, mm; plain hole, mm (a thread for the smaller ones). */
const steppers: readonly (readonly [
  name: string,
  circle: number,
  pilot: number,
  square: number,
  hole: number | string,
  read: Read,
])[] = [
  ['NEMA 17', 1.725, 0.866, 42.3, 'M3', 'one source'],
  ['NEMA 23', 2.625, 1.5, 57, 5.1, 'one source'],
  ['NEMA 34', 3.875, 2.875, 86, 6.6, 'from memory'],
];

const stepper = ([name, circle, pilot, square, hole, read]: (typeof steppers)[number]): StandardFace => ({
  ...plainFace,
  name,
  also: [`${name} stepper`],
  standard: 'NEMA ICS 16-2001, motor mounting faces 17, 23 and 34',
  what: 'stepping motor face',
  register: { kind: 'spigot', ...between(inch(pilot), -0.05, 0), reach: name === 'NEMA 17' ? 2 : 1.6 },
  holes: {
    count: 4,
    circle: inch(circle),
    thread: typeof hole === 'string' ? hole : null,
    size: typeof hole === 'string' ? null : between(hole, -0.1, 0.3),
    place: 0.15,
    placeSource: 'from memory: about 0.15 mm',
  },
  outside: square,
  read,
  source:
    read === 'one source'
      ? 'ALEA, standard.scad (half the spacing of the holes); pilot and tolerances from memory'
      : 'NEMA ICS 16, from memory',
});

/** NEMA MG 1 C faces and D flanges, and the stepping motors of NEMA ICS 16. */
export const nemaFaces = (): readonly StandardFace[] => [
  ...rows.map(cFace),
  ...flanges.map(dFlange),
  ...steppers.map(stepper),
];
