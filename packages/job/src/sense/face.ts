import { crossingOf } from '@fayplate/core';
import type { JobFile } from '../schema/file.js';
import type { Face, Instrument, RimPoint, ShaftSizes } from '../types.js';
import { type Context, entriesAt, faultAt, known, listed, namesAt } from './context.js';
import { featureOf } from './features.js';
import { frameOf } from './frame.js';
import { layoutOf } from './layout.js';
import { needRadii, onlyRound } from './radii.js';
import { type Namable, type Taken, readingsOf } from './readings.js';
import { standardOf, usesBench } from './standard.js';

type Written = NonNullable<JobFile['faces']>[string];

const rimOf = (
  context: Context,
  keys: readonly PropertyKey[],
  written: Written['rim'],
  names: readonly string[],
): readonly RimPoint[] => {
  for (const [i, point] of (written ?? []).entries())
    if ('feature' in point) known(context, [...keys, i, 'feature'], point.feature, names, 'a feature of this face');
    else if ('round' in point) known(context, [...keys, i], point.round, names, 'a feature of this face');
  const points = written ?? [];
  const crossing = points.every((p) => 'at' in p) ? crossingOf(points.map((p) => p.at)) : null;
  if (crossing !== null) {
    const [one, other] = crossing;
    faultAt(
      context,
      [...keys, other],
      'crossed-rim',
      `the points in order round the part: the line that starts here crosses the line from point ${one + 1} to point ${one + 2}`,
    );
  }
  return points;
};

const shaftSizesOf = (written: Written['shaft']): ShaftSizes | null =>
  written === undefined || typeof written === 'string'
    ? null
    : {
        diameter: written.diameter ?? null,
        overKey: written['over key'] ?? null,
        coupling: written.coupling ?? null,
        nut: written.nut ?? null,
      };

const standardShaft = (diameter: number | null): ShaftSizes | null =>
  diameter === null ? null : { diameter, overKey: null, coupling: null, nut: null };

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
  const from = standardOf(context, keys, written);
  const own = namesAt(context, [...keys, 'features']);
  const names = [...new Set([...(from?.features.keys() ?? []), ...own])];
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
  const stated = new Map(entriesAt(context, [...keys, 'features'], written.features));
  const features = names.flatMap((id) => {
    const [theirs, ours] = [from?.features.get(id), stated.get(id)];
    const feature = theirs === undefined ? ours : { ...theirs, ...ours };
    return feature === undefined ? [] : [featureOf(context, [...keys, 'features', id], id, feature, measured)];
  });
  const byId = new Map(features.map((f) => [f.id, f]));
  onlyRound(context, byId, taken);
  needRadii(context, keys, byId, list);
  const at = typeof written.shaft === 'string' ? written.shaft : written.shaft?.at;
  if (at !== undefined)
    known(
      context,
      [...keys, 'shaft', ...(typeof written.shaft === 'string' ? [] : ['at'])],
      at,
      names,
      'a feature of this face',
    );
  const rim = rimOf(context, [...keys, 'rim'], written.rim, names);
  const readings = taken.map((t) => t.reading);
  const frame = frameOf(context, keys, written, namable);
  const centre =
    frame.centre ?? (frame.across === null && frame.centreCircle === undefined ? (from?.centre ?? null) : null);
  return {
    taken,
    face: {
      name,
      viewed: written.viewed ?? 'from outside',
      ...frame,
      centre,
      features,
      readings: [...(from?.readings(usesBench(readings, rim)) ?? []), ...readings],
      layout: layoutOf(context, [...keys, 'layout'], written.layout, names),
      flange: written.flange ?? from?.thick ?? null,
      // Sizes alone speak of the shaft at the centre.
      shaft: at ?? (written.shaft === undefined ? null : centre),
      shaftSizes: shaftSizesOf(written.shaft) ?? standardShaft(from?.shaft ?? null),
      rim: rim.length > 0 ? rim : (from?.rim ?? []),
      standard: from?.standard ?? null,
    },
  };
};
