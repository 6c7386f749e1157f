import { type Read, type StandardFace, between, drilled, inch, plainFace } from './face.js';

/** Outside mm, bolt circle in, hole in, holes, least thickness mm; the older outside in inches. */
type B165 = readonly [
  nps: string,
  outside: number,
  circle: number,
  hole: number,
  holes: number,
  thick: number,
  older: number,
];

const b165: readonly B165[] = [
  ['1/2', 90, 2.375, 5 / 8, 4, 9.6, 3.5],
  ['3/4', 100, 2.75, 5 / 8, 4, 11.2, 3.875],
  ['1', 110, 3.125, 5 / 8, 4, 12.7, 4.25],
  ['1 1/4', 115, 3.5, 5 / 8, 4, 14.3, 4.625],
  ['1 1/2', 125, 3.875, 5 / 8, 4, 15.9, 5],
  ['2', 150, 4.75, 3 / 4, 4, 17.5, 6],
  ['2 1/2', 180, 5.5, 3 / 4, 4, 20.7, 7],
  ['3', 190, 6, 3 / 4, 4, 22.3, 7.5],
  ['3 1/2', 215, 7, 3 / 4, 8, 22.3, 8.5],
  ['4', 230, 7.5, 3 / 4, 8, 22.3, 9],
  ['5', 255, 8.5, 7 / 8, 8, 22.3, 10],
  ['6', 280, 9.5, 7 / 8, 8, 23.9, 11],
  ['8', 345, 11.75, 7 / 8, 8, 27, 13.5],
  ['10', 405, 14.25, 1, 12, 28.6, 16],
  ['12', 485, 17, 1, 12, 30.2, 19],
];

const class150 = ([nps, outside, circle, hole, holes, thick, older]: B165): StandardFace => {
  const read: Read = nps === '3 1/2' ? 'one source' : 'two places';
  return {
    ...plainFace,
    name: `ASME B16.5 class 150 NPS ${nps}`,
    also: [
      `NPS ${nps}`,
      `NPS ${nps} class 150`,
      `B16.5 ${nps}`,
      `B16.5 NPS ${nps}`,
      `B16.5 NPS ${nps} class 150`,
      `B16.5 class 150 ${nps}`,
      `class 150 ${nps}`,
      `${nps} in class 150`,
      `ANSI 150 ${nps}`,
      `150# ${nps}`,
    ],
    standard: 'ASME B16.5-2020, class 150 flanges and their drilling',
    what: 'pipe flange',
    register: null,
    holes: {
      count: holes,
      circle: inch(circle),
      thread: null,
      size: between(inch(hole), -0.4, 0.6),
      place: 0.75,
      placeSource: 'ASME B16.5, tolerances: bolt circle ± 1.5 mm (0.06 in), from memory',
    },
    outside,
    thick,
    read,
    source:
      'bd_warehouse, data_flange/drilling_class_150.csv and flange_data_class_150.csv (columns O, tf, W, d, n)' +
      (read === 'two places' ? '; Piping Master, industrial standards data, ansi150Flanges' : ''),
    disagree: [`outside ${outside} mm since the edition of 2003, ${older} in (${(older * 25.4).toFixed(1)} mm) before`],
  };
};

/** DN, outside, bolt circle, holes, hole: mm. */
type En = readonly [dn: number, outside: number, circle: number, holes: number, hole: number];

const small: readonly En[] = [
  [15, 95, 65, 4, 14],
  [20, 105, 75, 4, 14],
  [25, 115, 85, 4, 14],
  [32, 140, 100, 4, 18],
  [40, 150, 110, 4, 18],
  [50, 165, 125, 4, 18],
  [65, 185, 145, 8, 18],
  [80, 200, 160, 8, 18],
  [100, 220, 180, 8, 18],
  [125, 250, 210, 8, 18],
  [150, 285, 240, 8, 22],
];

const pn10: readonly En[] = [...small, [200, 340, 295, 8, 22], [250, 395, 350, 12, 22], [300, 445, 400, 12, 22]];
const pn16: readonly En[] = [...small, [200, 340, 295, 12, 22], [250, 405, 355, 12, 26], [300, 460, 410, 12, 26]];

const FOUR_OR_EIGHT = 'DN 65 has 8 holes in EN 1092-1 and 4 in older flanges and by agreement; both are held';

const enFace = (pn: 10 | 16, [dn, outside, circle, holes, hole]: En): StandardFace => {
  const four = dn === 65 && holes === 4;
  const tail = four ? ' 4-hole' : '';
  return {
    ...plainFace,
    name: `EN 1092-1 PN ${pn} DN ${dn}${tail}`,
    also: [
      `PN${pn} DN${dn}${tail}`,
      `DN${dn} PN${pn}${tail}`,
      `EN 1092 PN${pn} DN${dn}${tail}`,
      `EN 1092-1 DN${dn} PN${pn}${tail}`,
    ],
    standard: 'EN 1092-1:2018, PN 10 and PN 16 flanges, mating dimensions',
    what: 'pipe flange',
    register: null,
    holes: {
      count: holes,
      circle,
      thread: null,
      size: drilled(hole),
      place: 0.5,
      placeSource: 'EN 1092-1, tolerances: bolt circle ± 1 mm to M24, from memory',
    },
    outside,
    read: 'one source',
    source: `Piping Master, industrial standards data, dinPn${pn}Flanges`,
    disagree: dn === 65 ? [FOUR_OR_EIGHT] : [],
  };
};

const withBoth = (rows: readonly En[]): readonly En[] =>
  rows.flatMap((r): readonly En[] => (r[0] === 65 ? [r, [65, r[1], r[2], 4, r[4]]] : [r]));

/** Pipe flanges: ASME B16.5 class 150 to NPS 12, EN 1092-1 PN 10 and PN 16 to DN 300. */
export const pipeFaces = (): readonly StandardFace[] => [
  ...b165.map(class150),
  ...withBoth(pn10).map((r) => enFace(10, r)),
  ...withBoth(pn16).map((r) => enFace(16, r)),
];
