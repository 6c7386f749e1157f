import { type Speech, distance, sayNumber } from '@fayplate/core';
import type { Face, Instrument, Job, Reading, ReadingKind } from '@fayplate/job';
import type { Plate } from '@fayplate/plate';
import { locateFace, patternOf } from '@fayplate/survey';
import { type Place, measurable, placesOf } from '../checks/places.js';
import { type Pair, farthestFirst, rigidPairs } from '../checks/rigid.js';
import { layOn, radius95 } from './lay.js';
import { drilledSurvey } from './survey.js';

/** A reading to take on the drilled plate, in the reading language without its value, and what it would be on a perfect plate, mm. */
export interface PlannedReading {
  readonly reading: string;
  readonly expect: number;
  readonly why: 'needed' | 'check';
}

export interface ReadingPlan {
  readonly readings: readonly PlannedReading[];
  readonly instrument: string | null;
  /** Greatest 95 % radius that any hole will then have, mm; null where no instrument for lengths is stated. */
  readonly within: number | null;
  /** How to tell the plate from its mirror image; null where that is settled. */
  readonly hand: string | null;
}

/** Readings that fix every hole and bore, the farthest first, with one more at nearly every hole so that a misreading shows. */
export const planReadings = (plate: Plate, job: Job): ReadingPlan => {
  const places = measurable(plate);
  const needed = rigidPairs(places);
  const has = new Set(needed.map(([i, j]) => `${i} ${j}`));
  const spare = spares(farthestFirst(places).filter(([i, j]) => !has.has(`${i} ${j}`)), places.length);
  const planned = [...needed.map((p) => ({ pair: p, why: 'needed' as const })), ...spare.map((p) => ({ pair: p, why: 'check' as const }))];
  const readings = planned.flatMap(({ pair: [i, j], why }) => {
    const a = places[i];
    const b = places[j];
    return a === undefined || b === undefined ? [] : [{ ...readingBetween(a, b), why }];
  });
  const instrument = finestFor(job);
  return { readings, instrument: instrument?.name ?? null, within: instrument === null ? null : foreseen(plate, job, readings, instrument), hand: handWords(places) };
};

/** What is still to measure on a plate that has been measured in part: the fewest distances that fix the rest, beside those that the readings give already. */
export const planMissing = (plate: Plate, job: Job, handSettled: boolean): ReadingPlan => {
  const places = measurable(plate);
  const at = new Map(places.map((p, i) => [p.id, i]));
  const taken = (job.drilled?.readings ?? []).filter((r) => !r.aside);
  const between = taken.filter((r) => pairKinds.has(r.kind)).map((r) => r.features);
  const benched = [...new Set(taken.filter((r) => r.kind === 'at').flatMap((r) => r.features))];
  const given = [...between, ...benched.flatMap((a, i) => benched.slice(i + 1).map((b) => [a, b]))].flatMap(([a = '', b = '']): readonly Pair[] => {
    const [i, j] = [at.get(a), at.get(b)];
    return i === undefined || j === undefined || i === j || distance(places[i] ?? { x: 0, y: 0 }, places[j] ?? { x: 0, y: 0 }) < 1e-6 ? [] : [[i, j]];
  });
  const readings = rigidPairs(places, given).flatMap(([i, j]): readonly PlannedReading[] => {
    const a = places[i];
    const b = places[j];
    return a === undefined || b === undefined ? [] : [{ ...readingBetween(a, b), why: 'needed' }];
  });
  return { readings, instrument: finestFor(job)?.name ?? null, within: null, hand: handSettled ? null : handWords(places) };
};

/** Kinds of reading that give the distance between two centres. */
const pairKinds: ReadonlySet<ReadingKind> = new Set(['centres', 'over', 'between', 'step', 'wall']);

/** Pairs farthest first until every place has had one. */
const spares = (pairs: readonly (readonly [number, number])[], places: number): readonly (readonly [number, number])[] => {
  const seen = new Set<number>();
  const chosen: (readonly [number, number])[] = [];
  for (const pair of pairs) {
    if (seen.size >= places || chosen.length >= places) break;
    if (pair.every((i) => seen.has(i))) continue;
    for (const i of pair) seen.add(i);
    chosen.push(pair);
  }
  return chosen;
};

/** Jaws to the far walls of two holes; the wall between a hole and a bore around it, or the metal between them where it lies outside. */
export const readingBetween = (a: Place, b: Place): { readonly reading: string; readonly kind: ReadingKind; readonly expect: number } => {
  const d = distance(a, b);
  const [r, s] = [a.diameter / 2, b.diameter / 2];
  const [hole, bore] = a.kind === 'hole' ? [a, b] : [b, a];
  const of = (kind: ReadingKind, first: Place, second: Place, expect: number) => ({ reading: `${kind} ${first.id} ${second.id}`, kind, expect });
  if (a.kind === 'hole' && b.kind === 'hole') return of('over', a, b, d + r + s);
  if (bore.kind === 'bore' && bore.diameter / 2 - d - hole.diameter / 2 > 0) return of('wall', hole, bore, bore.diameter / 2 - d - hole.diameter / 2);
  return d - r - s > 0 ? of('between', hole, bore, d - r - s) : of('centres', hole, bore, d);
};

/** The finest instrument that the job's readings span distances with; where it spans none yet, the finest for lengths. */
const finestFor = (job: Job): Instrument | null => {
  const spanning = new Set(job.faces.flatMap((f) => f.readings.filter((r) => pairKinds.has(r.kind)).map((r) => r.instrument)));
  const lengths = [...job.instruments.values()].filter((i) => i.measures === 'length');
  const used = lengths.filter((i) => spanning.has(i.name));
  return (used.length > 0 ? used : lengths).reduce<Instrument | null>((best, i) => (best === null || i.each < best.each ? i : best), null);
};

/** What the survey would make of these readings, were they taken without error: its own ± of the worst-fixed hole. */
const foreseen = (plate: Plate, job: Job, readings: readonly { readonly reading: string; readonly expect: number }[], instrument: Instrument): number | null => {
  const places = placesOf(plate);
  const taken = readings.map(({ reading, expect }, i): Reading => {
    const [kind = 'over', ...features] = reading.split(' ');
    return {
      id: String(i + 1), text: reading, kind: kind as ReadingKind, features, value: expect, point: null, plusMinus: instrument.each, instrument: instrument.name,
      aside: false, note: null, unit: 'mm', place: { line: 0, column: 0 },
    };
  });
  const ids = [...new Set(taken.flatMap((r) => r.features))];
  const located = locateFace(drilledSurvey(emptyFace(ids, taken), plate, job, places), { next: false });
  if (!located.stopped.converged || located.undetermined.length > 0) return null;
  const laid = layOn(patternOf(located, ids), places);
  return Math.max(...ids.map((_, i) => radius95(laid, i)));
};

export const emptyFace = (ids: readonly string[], readings: readonly Reading[]): Face => ({
  name: 'drilled', viewed: 'from side B', centre: null, up: null, across: null, readings, layout: { kind: 'measured' }, flange: null, shaft: null, rim: [],
  features: ids.map((id) => ({ id, kind: 'hole', diameter: null, diameterFrom: null, thread: null, clock: null, vacant: false, stands: null, deep: null, lean: null, height: null })),
});

/** Three holes far apart and not in line, to be looked at or touched in one set-up. */
const handWords = (places: readonly Place[]): string => {
  const three = wideTriangle(places.filter((p) => p.kind === 'hole'));
  if (three.length < 3) return 'With fewer than three holes the plate and its mirror image are the same.';
  const ids = three.map((p) => p.id);
  return `Distances read the same on a plate that is drilled as its mirror image. Mark side B, look at it, and write where three holes are seen (clocks: { ${ids.map((id) => `${id}: …`).join(', ')} }), or take ${ids.map((id) => `“at ${id}”`).join(', ')} in one set-up.`;
};

/** The three places of widest triangle: the farthest pair and the one farthest from their line. */
const wideTriangle = (places: readonly Place[]): readonly Place[] => {
  const [pair] = farthestFirst(places);
  const [a, b] = pair === undefined ? [] : [places[pair[0]], places[pair[1]]];
  if (a === undefined || b === undefined) return places;
  const off = (p: Place): number => Math.abs((b.x - a.x) * (p.y - a.y) - (b.y - a.y) * (p.x - a.x));
  const third = places.reduce((best, p) => (off(p) > off(best) ? p : best), a);
  return off(third) < 1e-6 ? [a, b] : [a, b, third];
};

/** `over H1 H4 (144.900 mm on a perfect plate)`. */
export const plannedWords = (p: PlannedReading, speech: Speech): string => `${p.reading}, ${sayNumber(p.expect, { ...speech, fraction: null })} ${speech.unit} on a perfect plate`;
