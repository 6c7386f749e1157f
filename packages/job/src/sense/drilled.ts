import type { JobFile } from '../schema/file.js';
import type { DrilledPlate, Face, FeatureKind, Instrument, Job, PiecesSpec } from '../types.js';
import { type Context, type Taken, entriesAt, faultAt, known, namesAt } from './context.js';
import { type Keys, type Written, drilledSizesOf, plateBore, plateHole } from './drilled-sizes.js';
import type { ReadFace } from './face.js';
import { frameOf } from './frame.js';
import { type Namable, namedFeature, readingsOf } from './readings.js';
import { orientRunOuts } from './run-out.js';

/**
 * What a name of the drilled plate may be: its own holes and bores, or a feature that one is for; the study, which has
 * the plate, finds the hole.
 */
const namableOn = (faces: readonly Face[], more: readonly string[]): Namable => {
  const names = [...faces.flatMap((f) => f.features.flatMap(({ id }) => [id, `${f.name}.${id}`])), ...more];
  return {
    names,
    has: (n) => plateHole.test(n) || names.includes(n),
    expected: 'a hole of the plate, H1, H2 …, a bore of it, C1, C2 …, or the feature that one is for, S1 or frame.S1',
  };
};

/**
 * The holes drilled up to now, each known and named once; whatever is read must be among them where both go by the
 * plate's own names.
 */
const soFarOf = (
  context: Context,
  above: Keys,
  written: readonly string[],
  { names, has, expected }: Namable,
  drilled: Face,
): readonly string[] => {
  const keys = [...above, 'so far'];
  for (const [i, name] of written.entries()) {
    if (!has(name)) faultAt(context, [...keys, i], 'unknown-name', expected, { inside: name, among: names });
    else if (written.indexOf(name) < i)
      faultAt(context, [...keys, i], 'twice', 'each hole once only', { inside: name });
  }
  if (written.length === 0)
    faultAt(
      context,
      keys,
      'value',
      'the holes that are drilled, such as [H1, H2, C1]; leave `so far` out where all are',
    );
  const own = written.every((name) => plateHole.test(name));
  for (const [i, r] of drilled.readings.entries())
    for (const name of own ? r.features : [])
      if (plateHole.test(name) && !written.includes(name))
        faultAt(
          context,
          [...above, 'readings', i],
          'conflict',
          `a hole that is drilled: ${name} is not among those of \`so far\`; add it there, or take the reading out`,
          { inside: name },
        );
  return written;
};

const isWide = (kind: FeatureKind | undefined): boolean => kind === 'bore' || kind === 'spigot' || kind === 'boss';

const faceOf = (
  context: Context,
  keys: Keys,
  written: Written,
  instruments: ReadonlyMap<string, Instrument>,
  faces: readonly Face[],
  namable: Namable,
): ReadFace => {
  const parts = new Map(faces.flatMap((f) => f.features.map((feature) => [feature.id, feature] as const)));
  const list = readingsOf(context, [...keys, 'readings'], namable, instruments);
  const frame = frameOf(context, keys, written, namable);
  const taken = orientRunOuts(context, list.taken, frame);
  const clocks = new Map(entriesAt(context, [...keys, 'clocks'], written.clocks));
  for (const name of clocks.keys()) namedFeature(context, [...keys, 'clocks', name], name, namable);
  const named = [...taken.flatMap((t) => t.reading.features), frame.centre, frame.up, ...(frame.across ?? [])];
  const all = [...new Set(named.filter((n) => n !== null))];
  const holes = [
    ...all
      .filter((n) => plateHole.test(n))
      .toSorted((a, b) => b.charCodeAt(0) - a.charCodeAt(0) || Number(a.slice(1)) - Number(b.slice(1))),
    ...all.filter((n) => !plateHole.test(n)),
  ];
  return {
    taken,
    face: {
      name: 'drilled',
      viewed: written.viewed ?? 'from side B',
      ...frame,
      features: holes.map((id) => ({
        id,
        kind: plateBore.test(id) || isWide(parts.get(id)?.kind) ? 'bore' : 'hole',
        diameter: null,
        diameterFrom: null,
        thread: null,
        clock: clocks.get(id) ?? null,
        vacant: false,
        stands: null,
        deep: null,
        lean: null,
        height: null,
      })),
      readings: taken.map((t) => t.reading),
      layout: { kind: 'measured' },
      flange: null,
      shaft: null,
      shaftSizes: null,
      rim: [],
      standard: null,
    },
  };
};

/** What was measured of a plate, or of one piece of it, and its readings with what the checks after need of them. */
interface ReadDrilled {
  readonly drilled: DrilledPlate;
  readonly taken: readonly Taken[];
}

const plateOf = (
  context: Context,
  keys: Keys,
  written: Written,
  instruments: ReadonlyMap<string, Instrument>,
  faces: readonly Face[],
  more: readonly string[] = [],
): ReadDrilled => {
  const namable = namableOn(faces, more);
  const { face, taken } = faceOf(context, keys, written, instruments, faces, namable);
  return {
    taken,
    drilled: {
      drilled: face,
      drilledSizes: drilledSizesOf(context, keys, written),
      ...(written.from === undefined ? {} : { drilledFrom: written.from }),
      ...(written['so far'] === undefined ? {} : { soFar: soFarOf(context, keys, written['so far'], namable, face) }),
    },
  };
};

/** Screws of the joint between two pieces: S1, S2 …, in the order of their clocks. */
const screwsOf = (pieces: PiecesSpec): readonly string[] => pieces.screws.clocks.map((_, i) => `S${i + 1}`);

/** What was measured of each piece of a plate of two, by the names that the pieces have. */
const piecesOf = (
  context: Context,
  written: NonNullable<JobFile['drilled']>,
  instruments: ReadonlyMap<string, Instrument>,
  faces: readonly Face[],
  pieces: PiecesSpec | undefined,
): readonly (readonly [string, ReadDrilled])[] => {
  const keys = ['drilled', 'pieces'];
  const [first] = pieces?.names ?? [];
  if (pieces === undefined) {
    if (written.pieces !== undefined)
      faultAt(
        context,
        keys,
        'conflict',
        'the readings themselves, without `pieces`: this plate is of ' +
          'one piece; `pieces` in the plate section makes it two',
        { key: true },
      );
    return [];
  }
  for (const key of namesAt(context, ['drilled']))
    if (key !== 'pieces')
      faultAt(
        context,
        ['drilled', key],
        'conflict',
        `\`${key}\` under the piece that it is of: drilled: { pieces: { ${first}: { ${key}: … } } }`,
        { key: true },
      );
  return entriesAt(context, keys, written.pieces).flatMap(([name, piece]) =>
    known(context, [...keys, name], name, pieces.names, 'one of the two pieces', { key: true })
      ? [[name, plateOf(context, [...keys, name], piece, instruments, faces, screwsOf(pieces))] as const]
      : [],
  );
};

/** The section of what is drilled: of one plate, or of each piece of two. */
export const drilledOf = (
  context: Context,
  written: NonNullable<JobFile['drilled']>,
  instruments: ReadonlyMap<string, Instrument>,
  faces: readonly Face[],
  pieces: PiecesSpec | undefined,
): { readonly job: Partial<Job>; readonly taken: readonly (readonly Taken[])[] } => {
  const each = piecesOf(context, written, instruments, faces, pieces);
  if (pieces !== undefined)
    return {
      job: { drilledPieces: new Map(each.map(([name, p]) => [name, p.drilled])) },
      taken: each.map(([, p]) => p.taken),
    };
  const { drilled, taken } = plateOf(context, ['drilled'], written, instruments, faces);
  return { job: drilled, taken: [taken] };
};
