import type { JobFile } from '../schema/file.js';
import type { Face, Feature, Instrument, RimPoint } from '../types.js';
import { type Context, entriesAt, faultAt, isSpoiled, known, listed, namesAt } from './context.js';
import { featureOf } from './features.js';
import { layoutOf } from './layout.js';
import { type Namable, type Taken, readingsOf } from './readings.js';

type Written = NonNullable<JobFile['faces']>[string];
type Frame = Pick<Written, 'centre' | 'up' | 'across'>;

/** Origin and direction of a face: every feature named must exist, and the direction must be one. */
export const frameOf = (context: Context, keys: readonly PropertyKey[], written: Frame, namable: Namable): Pick<Face, 'centre' | 'up' | 'across'> => {
  const check = (key: string, name: string): void => {
    if (!namable.has(name)) faultAt(context, [...keys, key], namable.expected, { found: name, inside: name, among: namable.names });
  };
  const { centre, up, across } = written;
  if (centre !== undefined) check('centre', centre);
  if (up !== undefined) {
    check('up', up);
    if (up === centre) faultAt(context, [...keys, 'up'], 'another feature than `centre`: it shows which way is up from there');
    if (across !== undefined) faultAt(context, [...keys, 'across'], '`up` or `across`, not both: each of them says the direction');
  }
  if (across !== undefined) {
    for (const name of across) check('across', name);
    if (across.length !== 2) faultAt(context, [...keys, 'across'], 'two features, such as across: P10 P4');
    else if (across[0] === across[1]) faultAt(context, [...keys, 'across'], 'two different features');
  }
  const [from, to] = across ?? [];
  return { centre: centre ?? null, up: up ?? null, across: from === undefined || to === undefined ? null : [from, to] };
};

/** Kinds whose radius enters a reading must have one: written, read with `dia`, from a thread, or from three touches of the rim. */
const needRadii = (context: Context, keys: readonly PropertyKey[], features: ReadonlyMap<string, Feature>, taken: readonly Taken[]): void => {
  const counts = new Map<string, { dia: number; touch: number }>();
  for (const { reading } of taken) {
    const [f] = reading.features;
    if (f === undefined || reading.aside || (reading.kind !== 'dia' && reading.kind !== 'touch')) continue;
    const count = counts.get(f) ?? { dia: 0, touch: 0 };
    count[reading.kind]++;
    counts.set(f, count);
  }
  const said = new Set<string>();
  for (const { line, raw, reading } of taken) {
    if (reading.aside) continue;
    for (const i of line.grammar.radius) {
      const piece = line.features[i];
      const feature = features.get(piece?.text ?? '');
      if (piece === undefined || feature === undefined || feature.diameter !== null || feature.kind === 'edge' || said.has(feature.id)) continue;
      if (isSpoiled(context, [...keys, 'features', feature.id]) || ['diameter', 'thread'].some((k) => isSpoiled(context, [...keys, 'features', feature.id, k]))) continue;
      const { dia = 0, touch = 0 } = counts.get(feature.id) ?? {};
      if (dia > 0 || touch >= 3) continue;
      said.add(feature.id);
      context.findings.fault({
        at: raw.offset(piece.at),
        source: raw.source,
        found: feature.id,
        expected: `the diameter of ${feature.id} as well: "${reading.kind}" reaches its rim (give \`diameter\`, a \`dia\` reading${feature.kind === 'stud' || feature.kind === 'hole' ? ', its `thread`' : ''} or three \`touch\` readings)`,
        path: raw.path,
        sense: true,
      });
    }
  }
};

const onlyRound = (context: Context, features: ReadonlyMap<string, Feature>, taken: readonly Taken[]): void => {
  for (const { line, raw } of taken)
    for (const piece of line.features)
      if (features.get(piece.text)?.kind === 'edge')
        context.findings.fault({
          at: raw.offset(piece.at),
          source: raw.source,
          found: piece.text,
          expected: `a round feature: "${line.grammar.kind}" cannot be taken off a straight edge`,
          path: raw.path,
          sense: true,
        });
};

const rimOf = (context: Context, keys: readonly PropertyKey[], written: Written['rim'], names: readonly string[]): readonly RimPoint[] => {
  for (const [i, point] of (written ?? []).entries())
    if ('feature' in point) known(context, [...keys, i, 'feature'], point.feature, names, 'a feature of this face');
  return written ?? [];
};

export const faceOf = (
  context: Context,
  name: string,
  written: Written,
  instruments: ReadonlyMap<string, Instrument>,
): { readonly face: Face; readonly taken: readonly Taken[] } => {
  const keys = ['faces', name];
  const names = namesAt(context, [...keys, 'features']);
  const has = new Set(names);
  const namable: Namable = {
    names,
    has: (n) => has.has(n),
    expected: names.length === 0 ? 'a feature of this face, and it has none' : `a feature of this face: ${listed(names)}`,
  };
  const taken = readingsOf(context, [...keys, 'readings'], namable, instruments);
  const measured = new Set(taken.flatMap(({ reading: r }) => (r.kind === 'dia' && !r.aside ? r.features : [])));
  const features = entriesAt(context, [...keys, 'features'], written.features).map(([id, f]) =>
    featureOf(context, [...keys, 'features', id], id, f, measured),
  );
  const byId = new Map(features.map((f) => [f.id, f]));
  onlyRound(context, byId, taken);
  needRadii(context, keys, byId, taken);
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

/** `H1`, `H2` …, `C1`, `C2` …: the plate's holes, and its bores and registers, numbered only once it is designed. */
const plateHole = /^[HC][1-9]\d{0,3}$/;

export const drilledOf = (
  context: Context,
  written: NonNullable<JobFile['drilled']>,
  instruments: ReadonlyMap<string, Instrument>,
): { readonly face: Face; readonly taken: readonly Taken[] } => {
  const keys = ['drilled'];
  const namable: Namable = { names: [], has: (n) => plateHole.test(n), expected: 'a hole of the plate, H1, H2 …, or a bore of it, C1, C2 …' };
  const taken = readingsOf(context, [...keys, 'readings'], namable, instruments);
  const frame = frameOf(context, keys, written, namable);
  const clocks = new Map(entriesAt(context, [...keys, 'clocks'], written.clocks));
  for (const name of clocks.keys()) if (!namable.has(name)) faultAt(context, [...keys, 'clocks', name], namable.expected, { found: name, inside: name, among: namable.names });
  const named = [...taken.flatMap((t) => t.reading.features), frame.centre, frame.up, ...(frame.across ?? [])];
  const holes = [...new Set(named.filter((n) => n !== null))].sort((a, b) => b.charCodeAt(0) - a.charCodeAt(0) || Number(a.slice(1)) - Number(b.slice(1)));
  return {
    taken,
    face: {
      name: 'drilled',
      viewed: written.viewed ?? 'from side B',
      ...frame,
      features: holes.map((id) => ({
        id,
        kind: id.startsWith('C') ? 'bore' : 'hole',
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
      rim: [],
    },
  };
};

