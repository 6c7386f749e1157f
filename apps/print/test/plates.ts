import { type Path, circlePath, polar, signedArea, speechFor } from '@fayplate/core';
import type { Plate, PlateHole } from '@fayplate/plate';
import type { PrintOptions } from '../src/index.js';
import { letters } from './fonts.js';

/** What a template is drawn from. */
export type Planned = Pick<Plate, 'faces' | 'thickness' | 'material' | 'clocking' | 'holes' | 'bores' | 'outline'>;

/** `pump.P1` as the two names that it is made of. */
const partNamed = (name: string | null): PlateHole['part'] => {
  const [face = '', feature = ''] = name?.split('.') ?? [];
  return name === null ? null : { face, feature };
};

const hole = (id: string, x: number, y: number, more: Partial<PlateHole> = {}): PlateHole => ({
  id,
  feature: null,
  part: partNamed(more.feature ?? null),
  x,
  y,
  as: 'clearance',
  diameter: 9,
  from: 'B',
  depth: null,
  thread: null,
  sink: null,
  slot: null,
  drill: '9 mm',
  limits: null,
  fastening: null,
  fastener: null,
  source: 'common practice',
  land: [0, 20],
  ...more,
});

/** A plate's outline with no more told than its path. */
export const outlined = (path: Path): Plate['outline'] => ({
  shape: 'follow',
  path,
  area: Math.abs(signedArea(path)),
  mass: null,
  blank: { width: 0, height: 0, thickness: 0 },
});

/**
 * A plate between a pump with seven studs of twelve on 190.5 mm and a motor with four tapped holes, turned 22.5°
 * clockwise: our own invention.
 */
export const pumpPlate: Planned = {
  faces: ['pump', 'motor'],
  thickness: 20,
  material: { name: 'aluminium', density: 2.7 },
  clocking: Math.PI / 8,
  outline: outlined(circlePath({ x: 0, y: 0 }, 118)),
  bores: [
    {
      id: 'C1',
      kind: 'bore',
      feature: null,
      part: null,
      x: 0,
      y: 0,
      diameter: 60,
      limits: null,
      side: 'through',
      depth: null,
    },
    {
      id: 'C2',
      kind: 'recess',
      feature: 'pump.spigot',
      part: { face: 'pump', feature: 'spigot' },
      x: 0,
      y: 0,
      diameter: 90.05,
      limits: null,
      side: 'A',
      depth: 3,
    },
    {
      id: 'C3',
      kind: 'recess',
      feature: 'motor.spigot',
      part: { face: 'motor', feature: 'spigot' },
      x: 0,
      y: 0,
      diameter: 80.05,
      limits: null,
      side: 'B',
      depth: 3,
    },
  ],
  holes: [
    ...[0, 1, 2, 4, 6, 7, 9].map((k, i) => {
      const p = polar(95.25, Math.PI / 2 - (k * Math.PI) / 6);
      return hole(`H${i + 1}`, p.x, p.y, {
        feature: `pump.P${k + 1}`,
        diameter: 10.3,
        drill: '13/32',
        fastener: 10,
        ...(k === 6 ? { sink: { kind: 'counterbored', diameter: 22, depth: 9, side: 'B' } } : {}),
      });
    }),
    ...[0, 1, 2, 3].map((k) => {
      const p = polar(65, Math.PI / 2 - Math.PI / 8 - (k * Math.PI) / 2);
      return hole(`H${k + 8}`, p.x, p.y, {
        feature: `motor.P${k + 1}`,
        as: 'tapped',
        diameter: 8.5,
        drill: '8.5 mm',
        depth: k === 3 ? 16 : null,
        from: k === 3 ? 'A' : 'B',
        thread: { name: 'M10', major: 10, pitch: 1.5, depth: null },
      });
    }),
    hole('H12', 52, -85, { as: 'slot', diameter: 8, drill: null, slot: { length: 3, angle: 0.6 } }),
  ],
};

export const options: PrintOptions = {
  paper: 'A4',
  margin: 8,
  overlap: 10,
  orientation: 'any',
  sheet: null,
  printer: null,
  date: new Date('2024-03-01T00:00:00Z'),
  speech: speechFor('mm'),
  lettering: letters,
  file: 'drill.pdf',
};
