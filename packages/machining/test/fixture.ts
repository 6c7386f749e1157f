import { circlePath, polar, polygonPath } from '@fayplate/core';
import type { Face, Job, MachineSpec } from '@fayplate/job';
import type { Plate, PlateHole } from '@fayplate/plate';

/** `pump.P1` as the two names that it is made of. */
const partNamed = (name: string | null): PlateHole['part'] => {
  const [face = '', feature = ''] = name?.split('.') ?? [];
  return name === null ? null : { face, feature };
};

/**
 * A made-up adapter: five clearance holes on one circle, four tapped on another, a dowel and a slot, a bore and a
 * recess.
 */
export const hole = (id: string, x: number, y: number, more: Partial<PlateHole> = {}): PlateHole => ({
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
  fastener: 8,
  drill: null,
  limits: null,
  fastening: null,
  source: 'made up',
  land: [0, 20],
  ...more,
});

const m10 = { name: 'M10', major: 10, pitch: 1.5, depth: null };
const around = (n: number, radius: number, start: number) =>
  Array.from({ length: n }, (_, i) => polar(radius, start + (2 * Math.PI * i) / n));

export const holes: readonly PlateHole[] = [
  ...around(5, 72.5, Math.PI / 2).map((p, i) =>
    hole(`H${i + 1}`, p.x, p.y, {
      feature: `pump.P${i + 1}`,
      sink: i === 0 ? { kind: 'counterbored', diameter: 15, depth: 6, side: 'B' } : null,
    }),
  ),
  ...around(4, 60, Math.PI / 5).map((p, i) =>
    hole(`H${i + 6}`, p.x, p.y, {
      feature: `motor.M${i + 1}`,
      as: 'tapped',
      diameter: 8.5,
      thread: m10,
      fastener: null,
      drill: '8.5 mm',
    }),
  ),
  hole('H10', 45, -5, { as: 'dowel', diameter: 6, fastener: 6 }),
  hole('H11', -45, -5, { as: 'slot', diameter: 6, fastener: 6, slot: { length: 4, angle: 0 } }),
];

export const plate: Plate = {
  faces: ['pump', 'motor'],
  assembly: {
    order: ['pump', 'motor'],
    because: 'either',
    enters: new Map(),
    tightening: [],
    studs: [],
    seals: [],
  },
  thickness: 20,
  material: { name: 'aluminium', density: 2700 },
  clocking: 0,
  holes,
  bores: [
    {
      id: 'C1',
      kind: 'bore',
      feature: null,
      part: null,
      x: 0,
      y: 0,
      diameter: 40,
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
      diameter: 60.05,
      limits: [60.05, 60.08],
      side: 'A',
      depth: 3,
    },
  ],
  outline: {
    shape: 'round',
    path: circlePath({ x: 0, y: 0 }, 90),
    area: Math.PI * 8100,
    mass: null,
    blank: { width: 180, height: 180, thickness: 20 },
  },
  centres: [],
  checks: [],
  bolts: [],
  goesOn: new Map(),
  clockings: null,
  turning: { range: { from: -Math.PI, to: Math.PI }, spans: [], best: null, plot: [] },
  alignment: null,
  unknowns: [],
  requirements: [],
  ok: true,
};

export const machine: MachineSpec = {
  step: null,
  topSpeed: null,
  screwPitch: null,
  backlash: null,
  drills: null,
  punches: null,
  reamers: null,
  dividingHead: null,
  tip: null,
  blank: null,
  allowance: null,
  safePlane: null,
  room: null,
  clamps: [],
};

const face = (name: string, centre: string): Face => ({
  name,
  viewed: 'from outside',
  centre,
  up: null,
  across: null,
  features: [],
  readings: [],
  layout: { kind: 'measured' },
  flange: null,
  shaft: null,
  shaftSizes: null,
  rim: [],
  standard: null,
});

export const job: Job = {
  name: 'test',
  units: 'mm',
  instruments: new Map(),
  faces: [face('pump', 'spigot'), face('motor', 'register')],
  plate: null,
  machine: null,
  stack: null,
  old: null,
  gaskets: [],
  drilled: null,
  print: null,
};

export const withMachine = (more: Partial<MachineSpec>): Job => ({ ...job, machine: { ...machine, ...more } });

/** A plain rectangle with the given holes, for cases that need no more. */
export const simple = (some: readonly PlateHole[], more: Partial<Plate> = {}): Plate => ({
  ...plate,
  holes: some,
  bores: [],
  outline: {
    shape: 'rectangle',
    path: polygonPath([
      { x: -100, y: -50 },
      { x: 100, y: -50 },
      { x: 100, y: 50 },
      { x: -100, y: 50 },
    ]),
    area: 20_000,
    mass: null,
    blank: { width: 200, height: 100, thickness: 20 },
  },
  ...more,
});
