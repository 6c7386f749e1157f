import { crossingOf, distance, fewestRuns } from '@fayplate/core';
import { shortened } from '../faults/findings.js';
import type { JobFile } from '../schema/file.js';
import type { Face, Feature, Instrument, RimPoint, ShaftSizes } from '../types.js';
import { placeIn } from '../source/source.js';
import { spanAt } from '../source/tree.js';
import type { Fillet } from '../reading/rim.js';
import { withAlike } from './alike.js';
import { type Taken, type Context, entriesAt, faultAt, known, listed, namesAt } from './context.js';
import { featureOf } from './features.js';
import { CIRCLE, frameOf } from './frame.js';
import { layoutOf } from './layout.js';
import { needRadii, onlyRound } from './radii.js';
import { type Namable, readingsOf } from './readings.js';
import { placesOf } from './places.js';
import { orientRunOuts } from './run-out.js';
import { standardOf, usesBench } from './standard.js';

type Written = NonNullable<JobFile['faces']>[string];

/** What is expected of a rim at a piece whose line crosses an earlier one, counted from 0. */
export const crossedWords = (earlier: number): string =>
  `the points in order round the part: the line that starts here crosses the line from point ${earlier + 1} to ` +
  `point ${earlier + 2}`;

type WrittenPiece = NonNullable<Written['rim']>[number];

/** A piece as it was written, or what the fewest lines and arcs make of a trace: all round where it stands alone. */
const piecesOf = (p: Exclude<WrittenPiece, Fillet>, alone: boolean): readonly RimPoint[] | null => {
  if (!('trace' in p)) return [p];
  const runs = fewestRuns(p.trace, p.within, alone);
  if (runs === null) return null;
  const [one, more] = runs;
  if (one === undefined || more !== undefined || !alone) return runs;
  // A whole circle has neither beginning nor end: two halves meet each other.
  const half = Math.floor(one.points.length / 2);
  return [
    { along: one.along, points: one.points.slice(0, half + 1) },
    { along: one.along, points: [...one.points.slice(half), ...one.points.slice(0, 1)] },
  ];
};

interface RimRead {
  readonly rim: readonly RimPoint[];
  /** Of each piece, which one of the list it was written in, from 0. */
  readonly from: readonly number[];
}

const rimOf = (
  context: Context,
  keys: readonly PropertyKey[],
  written: Written['rim'],
  names: readonly string[],
): RimRead => {
  const read = (written ?? []).flatMap((p, i): readonly { readonly piece: RimPoint; readonly i: number }[] => {
    if ('between' in p) return [];
    const pieces = piecesOf(p, written?.length === 1);
    if (pieces === null)
      faultAt(context, [...keys, i], 'value', 'places that lines and arcs go through: a larger ±, or more places');
    return (pieces ?? []).map((piece) => ({ piece, i }));
  });
  const rim = read.map(({ piece }) => piece);
  for (const [i, p] of (written ?? []).entries()) {
    if (!('between' in p)) continue;
    // It leads on from the last piece that is written before it; before the first, from the very last.
    const before = read.findLastIndex((r) => r.i < i);
    const at = before === -1 ? rim.length - 1 : before;
    const [one, other] = [rim[at], rim[(at + 1) % Math.max(rim.length, 1)]];
    const curved = (q: RimPoint | undefined): boolean => q !== undefined && ('along' in q || 'round' in q);
    if (one === undefined || rim.length < 2 || !curved(one) || !curved(other))
      faultAt(
        context,
        [...keys, i],
        'out-of-place',
        'a fillet between two of arc, line, round and trace, which it leads from one to the other',
      );
    else rim[at] = { ...one, fillet: p.between };
  }
  const from = read.map((r) => r.i);
  for (const { piece, i } of read)
    if ('feature' in piece) known(context, [...keys, i, 'feature'], piece.feature, names, 'a feature of this face');
    else if ('round' in piece) known(context, [...keys, i], piece.round, names, 'a feature of this face');
  // What runs round features is tried once their centres are known.
  if (!rim.every((p) => 'at' in p || 'along' in p)) return { rim, from };
  const places = rim.flatMap((p, piece) =>
    ('at' in p ? [p.at] : 'along' in p ? p.points : []).map((at) => ({ at, piece })),
  );
  // Two stretches may both have been touched in the corner between them.
  const apart = places.filter((p, i) => {
    const before = places[(i + places.length - 1) % places.length];
    return before === undefined || before.piece === p.piece || distance(before.at, p.at) > 0;
  });
  const crossing = crossingOf(apart.map((p) => p.at));
  if (crossing !== null) {
    const [one, other] = crossing.map((i) => from[apart[i]?.piece ?? 0] ?? 0);
    faultAt(context, [...keys, other ?? 0], 'crossed-rim', crossedWords(one ?? 0));
  }
  return { rim, from };
};

/** Where each piece of a rim is written. */
const rimWritten = (
  context: Context,
  keys: readonly PropertyKey[],
  from: readonly number[],
): NonNullable<Face['rimWritten']> =>
  from.map((i) => {
    const span = spanAt(context.tree, [...keys, i], 'value');
    const found = shortened(context.source.text.slice(span.from, span.to));
    return { ...placeIn(context.source, span.from), found, path: [...keys, i].map(String).join('.') };
  });

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

/** A diameter as a seller gives it: known to the ± of all that he gives, where it states none. */
const asSold = (feature: Feature, seller: number | null): Feature =>
  seller === null || feature.diameter === null || feature.diameter.plusMinus !== null
    ? feature
    : { ...feature, diameter: { ...feature.diameter, plusMinus: seller } };

/** Features of the circle that the layout has most of: as the job states it, else all that a layout may take. */
const circleOf = (
  context: Context,
  keys: readonly PropertyKey[],
  layout: Face['layout'],
  features: readonly Feature[],
): readonly string[] => {
  const any = features
    .filter((f) => (f.kind === 'stud' || f.kind === 'hole' || f.kind === 'dowel') && !f.vacant)
    .map((f) => f.id);
  const stated = layout.kind === 'stated' ? layout.circles.map((c) => c.features ?? any) : [];
  const [most = any] = stated.toSorted((a, b) => b.length - a.length);
  if (most.length < CIRCLE)
    faultAt(
      context,
      [...keys, 'centre'],
      'value',
      'a layout of three studs, holes or dowels or more, or the name of the feature that is the centre',
    );
  return most;
};

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
  const list = readingsOf(context, [...keys, 'readings'], namable, instruments, written.seller ?? null);
  const frame = frameOf(context, keys, written, namable);
  const centre =
    frame.centre ?? (frame.across === null && frame.centreCircle === undefined ? (from?.centre ?? null) : null);
  const taken = orientRunOuts(context, list.taken, { ...frame, centre });
  const measured = new Set(taken.flatMap(({ reading: r }) => (r.kind === 'dia' && !r.aside ? r.features : [])));
  const stated = new Map(entriesAt(context, [...keys, 'features'], written.features));
  const features = names.flatMap((id) => {
    const [theirs, ours] = [from?.features.get(id), stated.get(id)];
    const feature = theirs === undefined ? ours : { ...theirs, ...ours };
    if (feature === undefined) return [];
    const read = featureOf(context, [...keys, 'features', id], id, feature, measured);
    return [ours?.diameter === undefined ? read : asSold(read, written.seller ?? null)];
  });
  const sized = withAlike(
    context,
    keys,
    written.alike,
    namable,
    features,
    taken.map((t) => t.reading),
  );
  const byId = new Map(sized.map((f) => [f.id, f]));
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
  const layout = layoutOf(context, [...keys, 'layout'], written.layout, names);
  const onCircle = frame.centreLaid === true ? circleOf(context, keys, layout, features) : frame.centreCircle;
  const { rim, from: rimFrom } = rimOf(context, [...keys, 'rim'], written.rim, names);
  const readings = taken.map((t) => t.reading);
  return {
    taken,
    face: {
      name,
      viewed: written.viewed ?? 'from outside',
      ...(written.seller === undefined ? {} : { seller: written.seller }),
      ...frame,
      ...(onCircle === undefined ? {} : { centreCircle: onCircle }),
      centre,
      ...(written.alike === undefined ? {} : { alike: written.alike }),
      features: sized,
      readings: [...(from?.readings(usesBench(readings, rim)) ?? []), ...readings],
      layout,
      flange: written.flange?.value ?? from?.thick ?? null,
      ...(written.flange?.plusMinus == null ? {} : { flangeWithin: written.flange.plusMinus }),
      // Sizes alone speak of the shaft at the centre.
      shaft: at ?? (written.shaft === undefined ? null : centre),
      shaftSizes: shaftSizesOf(written.shaft) ?? standardShaft(from?.shaft ?? null),
      rim: rim.length > 0 ? rim : (from?.rim ?? []),
      ...(rim.length > 0 ? { rimWritten: rimWritten(context, [...keys, 'rim'], rimFrom) } : {}),
      ...(written.places === undefined ? {} : { places: placesOf(context, name, written.places, instruments) }),
      standard: from?.standard ?? null,
    },
  };
};
