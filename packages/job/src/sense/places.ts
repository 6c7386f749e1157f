import type { Measure } from '@fayplate/core';
import type { JobFile } from '../schema/file.js';
import type { Face, FacePlace, Instrument, Job, Length, MovedLength, PlaceSpot } from '../types.js';
import { type Context, entriesAt, faultAt, isSpoiled, known, namesAt } from './context.js';

type Written = NonNullable<NonNullable<JobFile['faces']>[string]['places']>;
type WrittenSpot = Pick<Written[string], 'x' | 'y' | 'behind' | 'ahead'>;
type Keys = readonly PropertyKey[];

const NONE: Length = { value: 0, plusMinus: 0 };

/** A place as it is measured on one part: each length with its own ±, else with the one that all have. */
const spotOf = (context: Context, keys: Keys, written: WrittenSpot, each: number | null): PlaceSpot => {
  const { behind, ahead } = written;
  if (behind !== undefined && ahead !== undefined)
    faultAt(context, [...keys, 'ahead'], 'conflict', '`behind` or `ahead`, not both');
  if (behind === undefined && ahead === undefined && !['behind', 'ahead'].some((k) => isSpoiled(context, [...keys, k])))
    faultAt(
      context,
      keys,
      'missing',
      '`behind: LENGTH` as well, how far behind the face it lies (or `ahead`, before it)',
      { key: true },
    );
  const length = (key: 'x' | 'y' | 'behind' | 'ahead', m: Measure | undefined): Length => {
    if (m === undefined) return NONE;
    const plusMinus = m.plusMinus ?? each;
    if (plusMinus === null && m.value !== 0)
      faultAt(
        context,
        [...keys, key],
        'no-plus-minus',
        'a ± behind it, or `each: ± 0.5 mm` or `by:` an instrument for the whole place',
      );
    return { value: m.value, plusMinus: plusMinus ?? 0 };
  };
  const out = length('ahead', ahead);
  return {
    x: length('x', written.x),
    y: length('y', written.y),
    behind: ahead === undefined ? length('behind', behind) : { ...out, value: -out.value },
  };
};

/** `places` of a face, each on the part as it is and, where it is written, on the old one. */
export const placesOf = (
  context: Context,
  face: string,
  written: Written | undefined,
  instruments: ReadonlyMap<string, Instrument>,
): readonly FacePlace[] =>
  entriesAt(context, ['faces', face, 'places'], written).map(([name, p]) => {
    const keys = ['faces', face, 'places', name];
    if (p.by !== undefined)
      known(context, [...keys, 'by'], p.by, namesAt(context, ['instruments']), 'an instrument of the job');
    const instrument = p.by === undefined ? undefined : instruments.get(p.by);
    if (instrument?.measures === 'angle')
      faultAt(context, [...keys, 'by'], 'wrong-instrument', 'an instrument that measures a length');
    // An instrument that the job does not have has been told already.
    const each = p.each ?? instrument?.each ?? (p.by === undefined ? null : 0);
    return {
      name,
      instrument: p.by ?? null,
      now: spotOf(context, keys, p, each),
      old: p.old === undefined ? null : spotOf(context, [...keys, 'old'], p.old, each),
    };
  });

/** `moves`: lengths between places of the two faces, every name looked up. */
export const movesOf = (
  context: Context,
  written: NonNullable<JobFile['moves']>,
  faces: readonly Face[],
): readonly MovedLength[] => {
  const all = faces.flatMap((f) => (f.places ?? []).map((p) => ({ face: f.name, place: p.name })));
  const names = all.flatMap(({ face, place }) =>
    all.filter((o) => o.place === place).length === 1 ? [place, `${face}.${place}`] : [`${face}.${place}`],
  );
  const find = (name: string) =>
    all.find((o) => `${o.face}.${o.place}` === name) ?? all.find((o) => o.place === name) ?? { face: '', place: name };
  return entriesAt(context, ['moves'], written).map(([name, m]) => {
    const keys = ['moves', name];
    const [from = '', to = ''] = m.between;
    for (const [i, n] of [from, to].entries())
      known(context, [...keys, 'between', i], n, names, 'a place of one of the two faces of the plate');
    if (from === to && from !== '') faultAt(context, [...keys, 'between', 1], 'twice', 'another place than the first');
    if (m.least !== undefined && m.most !== undefined && m.least > m.most)
      faultAt(context, [...keys, 'most'], 'conflict', 'a length not below `least`');
    return { name, between: [find(from), find(to)], least: m.least ?? null, most: m.most ?? null };
  });
};

/** Nothing comes to lie anywhere before there is a plate. */
export const movesWanted = (context: Context, job: Job): void => {
  if ((job.moves?.length ?? 0) > 0 && job.plate === null && !namesAt(context, []).includes('plate'))
    faultAt(context, ['moves'], 'missing', 'a `plate` section as well: it says which two faces are joined', {
      key: true,
    });
};
