import { MM_PER_INCH } from '@fayplate/core';
import { type Table } from '../source.js';

/** What a plate may be of. Speeds are for high-speed steel drills. */
export interface Material {
  readonly name: string;
  /** Other words that people write for it. */
  readonly also: readonly string[];
  /** kg/m³. */
  readonly density: number;
  /** Cutting speed, m/min, from and to. */
  readonly speed: readonly [number, number];
  readonly speedSource: string;
  /** Least thread engagement, in diameters of the bolt. */
  readonly engagement: number;
  readonly engagementSource: string;
}

/** Surface feet a minute → m/min. */
const sfm = (from: number, to: number): readonly [number, number] => [from * 0.3048, to * 0.3048];

/** What a plate may be of, with density, cutting speed and least engagement. */
export const materials: Table<Material> = {
  source: 'densities: usual handbook values, from memory',
  rows: [
    {
      name: 'aluminium',
      also: ['aluminum', 'alu', 'dural', '6061', '6082', '2014', '7075'],
      density: 2700,
      speed: sfm(200, 300),
      speedSource: 'cutting-speed tables, read in two places',
      engagement: 2,
      engagementSource: 'design rule read in one place; a workmanship text has 1.5',
    },
    {
      name: 'steel',
      also: ['mild steel', 'low carbon steel', 'bright mild steel', '1018', 'a36', 's275', 's355', 'en3', 'en8'],
      density: 7850,
      speed: sfm(70, 100),
      speedSource: 'cutting-speed tables, read in two places',
      engagement: 1,
      engagementSource: 'design rule read in two places',
    },
    {
      name: 'stainless steel',
      also: ['stainless', '304', '316', '303', 'a2', 'a4'],
      density: 8000,
      speed: sfm(40, 60),
      speedSource: 'from memory',
      engagement: 1,
      engagementSource: 'as for steel; from memory',
    },
    {
      name: 'cast iron',
      also: ['iron', 'grey iron', 'gray iron'],
      density: 7200,
      speed: sfm(50, 80),
      speedSource: 'cutting-speed tables, read in two places',
      engagement: 1.5,
      engagementSource: 'design rule read in two places',
    },
    {
      name: 'brass',
      also: ['leaded brass', 'cz121', 'c360'],
      density: 8500,
      speed: sfm(150, 300),
      speedSource: 'from memory',
      engagement: 1.5,
      engagementSource: 'design rule read in two places',
    },
    {
      name: 'bronze',
      also: ['gunmetal', 'phosphor bronze', 'lg2'],
      density: 8800,
      speed: sfm(70, 150),
      speedSource: 'from memory',
      engagement: 1.5,
      engagementSource: 'as for brass; from memory',
    },
    {
      name: 'acetal',
      also: ['pom', 'plastic'],
      density: 1410,
      speed: sfm(100, 300),
      speedSource: 'from memory',
      engagement: 2.5,
      engagementSource: 'rule of thumb, from memory',
    },
    {
      name: 'plywood',
      also: ['wood', 'birch ply'],
      density: 680,
      speed: sfm(300, 400),
      speedSource: 'from memory',
      engagement: 2.5,
      engagementSource: 'rule of thumb, from memory; an insert is better',
    },
    {
      name: 'MDF',
      also: ['mdf', 'fibreboard', 'fiberboard', 'hardboard'],
      density: 750,
      speed: sfm(300, 400),
      speedSource: 'as for plywood; from memory',
      engagement: 3,
      engagementSource: 'rule of thumb, from memory; it holds a thread badly: bolt through, or use an insert',
    },
    {
      name: 'acrylic',
      also: ['pmma', 'acrylic sheet'],
      density: 1190,
      speed: sfm(100, 200),
      speedSource: 'from memory; clear the drill often, for it melts, and ease it out of the far side, for it cracks',
      engagement: 2.5,
      engagementSource: 'as for acetal; from memory',
    },
  ],
};

/** A material by its name or another word for it; null where there is none. */
export const material = (text: string): Material | null => {
  const t = text.trim().toLowerCase().replace(/\s+/g, ' ');
  return materials.rows.find((m) => m.name.toLowerCase() === t || m.also.includes(t)) ?? null;
};

/** Turns a minute for a cutting speed (m/min) at a diameter (mm): n = v / (π d), which is 3.82 × SFM / inches. */
export const turnsPerMinute = (metresPerMinute: number, diameter: number): number =>
  (1000 * metresPerMinute) / (Math.PI * diameter);

/** Feed a turn for twist drills up to a diameter, both inches; the middle of each printed range. */
const drillFeeds: Table<readonly [to: number, feed: number]> = {
  source: 'twist drill feeds, from memory: 0.001–0.003 in below 1/8, to 0.004 at 1/4, 0.007 at 1/2, 0.015 at 1 in',
  rows: [
    [1 / 8, 0.002],
    [1 / 4, 0.003],
    [1 / 2, 0.0055],
    [1, 0.01],
    [Infinity, 0.015],
  ],
};

/** Feed a turn, mm, for a drill of a diameter, mm. */
export const feedPerTurn = (diameter: number): number =>
  (drillFeeds.rows.find(([to]) => diameter / MM_PER_INCH <= to + 1e-9)?.[1] ?? 0.015) * MM_PER_INCH;
