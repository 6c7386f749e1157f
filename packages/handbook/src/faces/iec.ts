import {
  type FaceShaft,
  type Read,
  type StandardFace,
  drilled,
  fitted,
  mediumPlace,
  mediumSource,
  plainFace,
} from './face.js';

/** Circle, spigot, outside, spigot height, hole, holes; then how read, the least hole that a source has, and shafts. */
interface Row {
  readonly circle: number;
  readonly spigot: number;
  readonly outside: number;
  readonly height: number;
  readonly hole: number | string;
  readonly holes: number;
  readonly read: Read;
  readonly smaller?: number;
}

const standard = 'IEC 60072-1:1991, flange tables for FF and FT (the same in DIN EN 50347:2003)';
const catalogue =
  'TechLine 1 asynchronous motors, catalogue of 07/2007, pp. 9–10, ' +
  'dimensions to DIN EN 50347: circle, spigot, outside, holes';

/**
 * Frame, shaft diameter, shaft length of the common four-pole motors, by flange. Source: IEC 60072-1 as read in that
 * catalogue.
 */
const frames: Readonly<Record<string, readonly (readonly [frame: string, diameter: number, length: number])[]>> = {
  FF100: [['56', 9, 20]],
  FF115: [['63', 11, 23]],
  FF130: [['71', 14, 30]],
  FF165: [
    ['80', 19, 40],
    ['90', 24, 50],
  ],
  FF215: [
    ['100', 28, 60],
    ['112', 28, 60],
  ],
  FF265: [['132', 38, 80]],
  FF300: [
    ['160', 42, 110],
    ['180', 48, 110],
  ],
  FF350: [['200', 55, 110]],
  FF400: [['225', 60, 140]],
  FF500: [
    ['250', 65, 140],
    ['280', 75, 140],
  ],
  FF600: [['315', 80, 170]],
  FT65: [['56', 9, 20]],
  FT75: [['63', 11, 23]],
  FT85: [['71', 14, 30]],
  FT100: [['80', 19, 40]],
  FT115: [['90', 24, 50]],
  FT130: [
    ['100', 28, 60],
    ['112', 28, 60],
  ],
  FT165: [['132', 38, 80]],
  FT215: [['160', 42, 110]],
};

const ff = (
  circle: number,
  spigot: number,
  outside: number,
  height: number,
  hole: number,
  holes: number,
  read: Read,
  smaller?: number,
): Row => ({ circle, spigot, outside, height, hole, holes, read, ...(smaller === undefined ? {} : { smaller }) });
const ft = (circle: number, spigot: number, outside: number, height: number, hole: string, read: Read): Row => ({
  circle,
  spigot,
  outside,
  height,
  hole,
  holes: 4,
  read,
});

/** Plain holes. The catalogue has the older hole sizes 9.5 and 11.5 where the standard has 10 and 12. */
const plain: readonly Row[] = [
  ff(55, 40, 70, 2.5, 5.8, 4, 'from memory'),
  ff(65, 50, 80, 2.5, 5.8, 4, 'from memory'),
  ff(75, 60, 90, 2.5, 5.8, 4, 'from memory'),
  ff(85, 70, 105, 2.5, 7, 4, 'from memory'),
  ff(100, 80, 120, 3, 7, 4, 'one source'),
  ff(115, 95, 140, 3, 10, 4, 'one source', 9.5),
  ff(130, 110, 160, 3.5, 10, 4, 'one source', 9.5),
  ff(165, 130, 200, 3.5, 12, 4, 'two places', 11.5),
  ff(215, 180, 250, 4, 14.5, 4, 'one source', 14),
  ff(265, 230, 300, 4, 14.5, 4, 'one source', 14),
  ff(300, 250, 350, 5, 18.5, 4, 'one source', 18),
  ff(350, 300, 400, 5, 18.5, 4, 'from memory', 18),
  ff(400, 350, 450, 5, 18.5, 8, 'from memory', 18),
  ff(500, 450, 550, 5, 18.5, 8, 'from memory', 18),
];

/** Tapped holes. */
const tapped: readonly Row[] = [
  ft(55, 40, 70, 2.5, 'M5', 'from memory'),
  ft(65, 50, 80, 2.5, 'M5', 'one source'),
  ft(75, 60, 90, 2.5, 'M5', 'one source'),
  ft(85, 70, 105, 2.5, 'M6', 'one source'),
  ft(100, 80, 120, 3, 'M6', 'one source'),
  ft(115, 95, 140, 3, 'M8', 'one source'),
  ft(130, 110, 160, 3.5, 'M8', 'one source'),
  ft(165, 130, 200, 3.5, 'M10', 'one source'),
  ft(215, 180, 250, 4, 'M12', 'one source'),
  ft(265, 230, 300, 4, 'M12', 'from memory'),
  ft(300, 250, 350, 5, 'M16', 'from memory'),
];

const sourceOf = (read: Read): string =>
  read === 'from memory'
    ? 'IEC 60072-1, from memory'
    : read === 'one source'
      ? `${catalogue}; what it leaves out from memory`
      : `${catalogue}; an open model of a 90 frame motor, its dimension sheet: P 200, N 130 j6, M 165, S 12, T 3.5`;

/** The spigot's limits: j6 to 230 mm; from 250 mm on makers grind either j6 or h6, and both are allowed for. */
const spigotOf = (d: number) => {
  const j6 = fitted(d, 'j6');
  return d <= 230 ? j6 : { ...j6, least: fitted(d, 'h6').least, fit: 'j6 or h6' };
};

const faceOf = (kind: 'FF' | 'FT', r: Row): StandardFace => {
  const code = `${kind}${r.circle}`;
  const shafts: readonly FaceShaft[] = (frames[code] ?? []).map(([frame, diameter, length]) => ({
    frame: `IEC ${frame}`,
    diameter,
    length,
  }));
  const mount = kind === 'FF' ? 'B5' : 'B14';
  return {
    ...plainFace,
    name: `IEC ${code}`,
    also: [
      code,
      `${kind === 'FF' ? 'A' : 'C'}${r.outside}`,
      ...shafts.flatMap((s) => [`${s.frame} ${mount}`, `${s.frame.slice(4)} ${mount}`]),
    ],
    standard,
    what: kind === 'FF' ? 'motor flange, plain holes (B5)' : 'motor flange, tapped holes (B14)',
    register: { kind: 'spigot', ...spigotOf(r.spigot), reach: r.height },
    holes: {
      count: r.holes,
      circle: r.circle,
      thread: typeof r.hole === 'string' ? r.hole : null,
      size: typeof r.hole === 'string' ? null : drilled(r.hole, r.smaller),
      place: mediumPlace(r.circle),
      placeSource: mediumSource,
    },
    outside: r.outside,
    shafts,
    read: r.read,
    source: sourceOf(r.read),
    disagree: [
      ...(r.smaller === undefined
        ? []
        : [`the holes are ${r.hole} mm in the standard, ${r.smaller} mm in some catalogues`]),
      ...(r.spigot > 230 ? ['the spigot is j6 in IEC 60072-1, h6 from 250 mm on in DIN EN 50347'] : []),
    ],
  };
};

/** IEC 60072-1 motor flanges: FF with plain holes, FT with tapped ones. */
export const iecFaces = (): readonly StandardFace[] => [
  ...plain.map((r) => faceOf('FF', r)),
  ...tapped.map((r) => faceOf('FT', r)),
];
