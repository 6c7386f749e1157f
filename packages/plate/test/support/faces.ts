import type { Point } from '@fayplate/core';
import type { Face, Feature, FeatureKind, Job, PlateSpec } from '@fayplate/job';
import type { UsedPattern } from '@fayplate/layout';
import type { Pattern } from '@fayplate/survey';

/** A feature with everything optional left out. */
export const feature = (id: string, kind: FeatureKind, more: Partial<Feature> = {}): Feature => ({
  id,
  kind,
  diameter: null,
  diameterFrom: null,
  thread: null,
  clock: null,
  vacant: false,
  stands: null,
  deep: null,
  lean: null,
  height: null,
  ...more,
});

export const face = (name: string, features: readonly Feature[], more: Partial<Face> = {}): Face => ({
  name,
  viewed: 'from outside',
  centre: null,
  up: null,
  across: null,
  features,
  readings: [],
  layout: { kind: 'measured' },
  flange: null,
  shaft: null,
  shaftSizes: null,
  rim: [],
  standard: null,
  ...more,
});

export const plateSpec = (between: readonly [string, string], more: Partial<PlateSpec> = {}): PlateSpec => ({
  between,
  material: 'aluminium',
  clocking: { at: 0 },
  thickness: 20,
  bore: null,
  nothingPasses: false,
  meet: 'shafts',
  secondSetting: null,
  locate: new Map(),
  fasten: new Map(),
  outline: { shape: 'follow', margin: 12, corner: null },
  limits: { web: 3, edge: { times: 1.5 } },
  drilling: null,
  alignment: null,
  extras: [],
  shafts: null,
  cuts: [],
  parallel: null,
  ...more,
});

export const jobOf = (faces: readonly Face[], plate: PlateSpec | null, more: Partial<Job> = {}): Job => ({
  name: 'bench job',
  units: 'mm',
  instruments: new Map(),
  faces,
  plate,
  machine: null,
  stack: null,
  old: null,
  gaskets: [],
  drilled: null,
  print: null,
  ...more,
});

/** A pattern known without error unless a covariance is given. */
export const patternOf = (
  places: Readonly<Record<string, Point>>,
  radii: Readonly<Record<string, number | null>> = {},
  covariance?: Pattern['covariance'],
): Pattern => {
  const ids = Object.keys(places);
  return {
    ids,
    points: Object.values(places),
    radii: ids.map((id) => radii[id] ?? null),
    covariance: covariance ?? ids.flatMap(() => [0, 0]).map((_, __, all) => all.map(() => 0)),
  };
};

export const usedOf = (patterns: Readonly<Record<string, Pattern>>): ReadonlyMap<string, UsedPattern> =>
  new Map(Object.entries(patterns).map(([name, pattern]) => [name, { source: 'measured', pattern }]));
