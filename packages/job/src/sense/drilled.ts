import type { JobFile } from '../schema/file.js';
import type { DrilledSizes, Face, FeatureKind, Instrument } from '../types.js';
import { type Context, entriesAt, faultAt } from './context.js';
import type { ReadFace } from './face.js';
import { frameOf } from './frame.js';
import { orientRunOuts } from './run-out.js';
import { type Namable, readingsOf } from './readings.js';

/** `H1`, `H2` …, `C1`, `C2` …: the plate's holes, and its bores and registers, numbered only once it is designed. */
const plateHole = /^[HC][1-9]\d{0,3}$/;
const plateBore = /^C[1-9]\d{0,3}$/;

/** Thickness and depths of the finished plate; null where none is written. */
export const drilledSizesOf = (context: Context, written: NonNullable<JobFile['drilled']>): DrilledSizes | null => {
  const depths = entriesAt(context, ['drilled', 'depths'], written.depths);
  for (const [name] of depths)
    if (!plateBore.test(name))
      faultAt(
        context,
        ['drilled', 'depths', name],
        'unknown-name',
        'a recess or raised spigot of the plate, C1, C2 …',
        {
          found: name,
          key: true,
        },
      );
  const slots = entriesAt(context, ['drilled', 'slots'], written.slots);
  for (const [name] of slots)
    if (!plateHole.test(name))
      faultAt(context, ['drilled', 'slots', name], 'unknown-name', 'a slot of the plate, H1, H2 …', {
        found: name,
        key: true,
      });
  const outline = outlineOf(context, written.outline);
  return written.thickness === undefined && depths.length === 0 && slots.length === 0 && outline === null
    ? null
    : {
        thickness: written.thickness?.value ?? null,
        ...(written.thickness?.plusMinus == null ? {} : { thicknessWithin: written.thickness.plusMinus }),
        depths: new Map(depths),
        ...(outline === null ? {} : { outline }),
        ...(slots.length === 0
          ? {}
          : { slots: new Map(slots.map(([id, s]) => [id, { width: s.width ?? null, length: s.length ?? null }])) }),
      };
};

/** Width and height, or one diameter. */
const outlineOf = (
  context: Context,
  written: NonNullable<JobFile['drilled']>['outline'],
): NonNullable<DrilledSizes['outline']> | null => {
  if (written === undefined) return null;
  const { width, height, diameter } = written;
  if (diameter !== undefined && width === undefined && height === undefined) return { diameter };
  if (diameter === undefined && width !== undefined && height !== undefined) return { width, height };
  faultAt(context, ['drilled', 'outline'], 'missing', 'its width and height, or the diameter of a round plate');
  return null;
};

/** What a name of the drilled plate may be: its own holes and bores, or a feature that one is for; the study, which has the plate, finds the hole. */
const namableOn = (faces: readonly Face[]): Namable => {
  const names = faces.flatMap((f) => f.features.map((feature) => feature.id));
  return {
    names,
    has: (n) => plateHole.test(n) || names.includes(n),
    expected: 'a hole of the plate, H1, H2 …, a bore of it, C1, C2 …, or the feature that one is for',
  };
};

/** The holes drilled up to now, each known and named once; whatever is read must be among them where both go by the plate's own names. */
export const soFarOf = (
  context: Context,
  written: readonly string[],
  faces: readonly Face[],
  drilled: Face | null,
): readonly string[] => {
  const keys = ['drilled', 'so far'];
  const { names, has, expected } = namableOn(faces);
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
  for (const [i, r] of (drilled?.readings ?? []).entries())
    for (const name of own ? r.features : [])
      if (plateHole.test(name) && !written.includes(name))
        faultAt(
          context,
          ['drilled', 'readings', i],
          'conflict',
          `a hole that is drilled: ${name} is not among those of \`so far\`; add it there, or take the reading out`,
          { inside: name },
        );
  return written;
};

const isWide = (kind: FeatureKind | undefined): boolean => kind === 'bore' || kind === 'spigot' || kind === 'boss';

export const drilledOf = (
  context: Context,
  written: NonNullable<JobFile['drilled']>,
  instruments: ReadonlyMap<string, Instrument>,
  faces: readonly Face[],
): ReadFace => {
  const keys = ['drilled'];
  const parts = new Map(faces.flatMap((f) => f.features.map((feature) => [feature.id, feature] as const)));
  const namable = namableOn(faces);
  const list = readingsOf(context, [...keys, 'readings'], namable, instruments);
  const frame = frameOf(context, keys, written, namable);
  const taken = orientRunOuts(context, list.taken, frame);
  const clocks = new Map(entriesAt(context, [...keys, 'clocks'], written.clocks));
  for (const name of clocks.keys())
    if (!namable.has(name))
      faultAt(context, [...keys, 'clocks', name], 'unknown-name', namable.expected, {
        found: name,
        inside: name,
        among: namable.names,
      });
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
