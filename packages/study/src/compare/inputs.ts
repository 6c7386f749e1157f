import { type Speech, say } from '@fayplate/core';
import type { Face, Feature, Job, Reading } from '@fayplate/job';

/** What of a job is another, in words, in the order of the file. */
export interface InputChanges {
  readonly says: readonly string[];
  /** Changes that are not told one by one. */
  readonly more: number;
}

/** At most so many are listed one by one. */
const TOLD = 20;

const keyOf = (r: Reading): string => `${r.kind} ${r.features.join(' ')}`;

/** The readings of a face by what was read; the same read twice is counted. */
const readingsBy = (face: Face): ReadonlyMap<string, Reading> => {
  const seen = new Map<string, number>();
  return new Map(
    face.readings
      .filter((r) => !r.aside)
      .map((r) => {
        const n = (seen.get(keyOf(r)) ?? 0) + 1;
        seen.set(keyOf(r), n);
        return [n === 1 ? keyOf(r) : `${keyOf(r)} (${n})`, r] as const;
      }),
  );
};

const isLength = (r: Reading): boolean => r.kind !== 'angle' && r.kind !== 'square' && r.point === null;

const same = (a: unknown, b: unknown): boolean => JSON.stringify(a, flat) === JSON.stringify(b, flat);

/** Maps as lists; how a thing was written is left out, and so is the last figure of a length in inches. */
const flat = (key: string, v: unknown): unknown =>
  ['place', 'text', 'note', 'unit', 'rimWritten'].includes(key)
    ? undefined
    : v instanceof Map
      ? [...v]
      : typeof v === 'number'
        ? Number(v.toPrecision(12))
        : v;

const ofReadings = (before: Face, now: Face, speech: Speech): readonly string[] => {
  const [a, b] = [readingsBy(before), readingsBy(now)];
  const length = (v: number): string => say(v, { ...speech, fraction: null });
  return [
    ...[...b].flatMap(([key, r]): readonly string[] => {
      const was = a.get(key);
      if (was === undefined) return [`${now.name}: reading ${key} is new`];
      if (same(was.value, r.value) && same(was.point, r.point) && same(was.plusMinus, r.plusMinus)) return [];
      return !same(was.value, r.value) && isLength(r)
        ? [`${now.name}: ${key} was ${length(was.value)} and is ${length(r.value)}`]
        : [`${now.name}: ${key} is another${same(was.plusMinus, r.plusMinus) ? '' : ', or its ±'}`];
    }),
    ...[...a.keys()].filter((key) => !b.has(key)).map((key) => `${now.name}: reading ${key} is out`),
  ];
};

const ofFeatures = (before: Face, now: Face): readonly string[] => {
  const byId = (f: Face): ReadonlyMap<string, Feature> => new Map(f.features.map((x) => [x.id, x]));
  const [a, b] = [byId(before), byId(now)];
  return [
    ...[...b].flatMap(([id, f]): readonly string[] => {
      const was = a.get(id);
      if (was === undefined) return [`${now.name}: ${id} is new`];
      const keys = (Object.keys(f) as (keyof typeof f)[]).filter((k) => !same(f[k], was[k]));
      return keys.length === 0
        ? []
        : [`${now.name}: ${keys.join(', ')} of ${id} ${keys.length === 1 ? 'is' : 'are'} another`];
    }),
    ...[...a.keys()].filter((id) => !b.has(id)).map((id) => `${now.name}: ${id} is out`),
  ];
};

const others: readonly (keyof Job)[] = ['instruments', 'stack', 'old', 'machine', 'gaskets'];

const ofSection = (name: string, before: unknown, now: unknown): readonly string[] => {
  if (same(before, now)) return [];
  if (before == null) return [`${name} is new`];
  if (now == null) return [`${name} is out`];
  const [a, b] = [before, now] as [Readonly<Record<string, unknown>>, Readonly<Record<string, unknown>>];
  if (before instanceof Map || Array.isArray(before)) return [`${name}: something is another`];
  const keys = [...new Set([...Object.keys(a), ...Object.keys(b)])].filter((k) => !same(a[k], b[k]));
  return keys.map((k) => `${name}: ${k} is another`);
};

/** What was changed in the job file between two states of it. */
export const inputChanges = (before: Job, now: Job, speech: Speech): InputChanges => {
  const faces = now.faces.flatMap((f): readonly string[] => {
    const was = before.faces.find((x) => x.name === f.name);
    if (was === undefined) return [`face ${f.name} is new`];
    const rest = (Object.keys(f) as (keyof Face)[]).filter(
      (k) => !['readings', 'features', 'rimWritten'].includes(k) && !same(f[k], was[k]),
    );
    return [...ofFeatures(was, f), ...ofReadings(was, f, speech), ...rest.map((k) => `${f.name}: ${k} is another`)];
  });
  const gone = before.faces
    .filter((f) => !now.faces.some((x) => x.name === f.name))
    .map((f) => `face ${f.name} is out`);
  const all = [
    ...faces,
    ...gone,
    ...ofSection('plate', before.plate, now.plate),
    ...others.flatMap((k) => ofSection(k, before[k], now[k])),
  ];
  return { says: all.slice(0, TOLD), more: Math.max(0, all.length - TOLD) };
};
