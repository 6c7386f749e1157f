import type { JobFile } from '../schema/file.js';
import type { Face, Instrument, RimPoint } from '../types.js';
import { type Context, entriesAt, known, listed, namesAt } from './context.js';
import { featureOf } from './features.js';
import { frameOf } from './frame.js';
import { layoutOf } from './layout.js';
import { needRadii, onlyRound } from './radii.js';
import { type Namable, type Taken, readingsOf } from './readings.js';

type Written = NonNullable<JobFile['faces']>[string];

const rimOf = (
  context: Context,
  keys: readonly PropertyKey[],
  written: Written['rim'],
  names: readonly string[],
): readonly RimPoint[] => {
  for (const [i, point] of (written ?? []).entries())
    if ('feature' in point) known(context, [...keys, i, 'feature'], point.feature, names, 'a feature of this face');
  return written ?? [];
};

export interface ReadFace {
  readonly face: Face;
  readonly taken: readonly Taken[];
}

export const faceOf = (
  context: Context,
  name: string,
  written: Written,
  instruments: ReadonlyMap<string, Instrument>,
): ReadFace => {
  const keys = ['faces', name];
  const names = namesAt(context, [...keys, 'features']);
  const has = new Set(names);
  const namable: Namable = {
    names,
    has: (n) => has.has(n),
    expected:
      names.length === 0 ? 'a feature of this face, and it has none' : `a feature of this face: ${listed(names)}`,
  };
  const list = readingsOf(context, [...keys, 'readings'], namable, instruments);
  const { taken } = list;
  const measured = new Set(taken.flatMap(({ reading: r }) => (r.kind === 'dia' && !r.aside ? r.features : [])));
  const features = entriesAt(context, [...keys, 'features'], written.features).map(([id, f]) =>
    featureOf(context, [...keys, 'features', id], id, f, measured),
  );
  const byId = new Map(features.map((f) => [f.id, f]));
  onlyRound(context, byId, taken);
  needRadii(context, keys, byId, list);
  if (written.shaft !== undefined) known(context, [...keys, 'shaft'], written.shaft, names, 'a feature of this face');
  return {
    taken,
    face: {
      name,
      viewed: written.viewed ?? 'from outside',
      ...frameOf(context, keys, written, namable),
      features,
      readings: taken.map((t) => t.reading),
      layout: layoutOf(context, [...keys, 'layout'], written.layout, names),
      flange: written.flange ?? null,
      shaft: written.shaft ?? null,
      rim: rimOf(context, [...keys, 'rim'], written.rim, names),
    },
  };
};
