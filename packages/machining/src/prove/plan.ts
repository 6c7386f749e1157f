import { type LengthUnit, distance, oncePer, sayAll } from '@fayplate/core';
import {
  type Face,
  type Instrument,
  type Job,
  type Reading,
  type ReadingKind,
  isDistance,
  readOf,
} from '@fayplate/job';
import type { Plate } from '@fayplate/plate';
import { locateFace, patternOf, planReadings as surveyPlan, toolsOf } from '@fayplate/survey';
import { type Place, measurable, notMeasured, placesOf, readingSide } from '../checks/places.js';
import { rigidPairs } from '../checks/rigid.js';
import { handWords } from './hand.js';
import { layOn, radius95 } from './lay.js';
import { drilledSurvey } from './survey.js';

/**
 * A reading to take on the drilled plate, in the reading language without its value, and what it would be on a perfect
 * plate, mm.
 */
export interface PlannedReading {
  readonly reading: string;
  readonly expect: number;
  readonly instrument: string | null;
  /** In which the instrument is read, as the job's own readings by it show; null: the job's unit. */
  readonly unit: LengthUnit | null;
  /** Fixes something, or only checks what others fix. */
  readonly why: 'needed' | 'check';
}

/** What to measure on the drilled plate, and how well its holes are then known. */
export interface ReadingPlan {
  readonly readings: readonly PlannedReading[];
  /** Greatest 95 % radius that any hole will then have, mm; null where nothing is planned. */
  readonly within: number | null;
  /** How to tell the plate from its mirror image; null where that is settled. */
  readonly hand: string | null;
  /** The same without the words of the job file. */
  readonly handAtBench: string | null;
  /** From which side to read, and where jaws do not find the hole as it is drilled; null where nothing is planned. */
  readonly mouths: string | null;
}

/** What is taken to be in the shop where the job names no instrument for lengths: a caliper (± as common practice). */
const usualCaliper: Instrument = { name: 'caliper', measures: 'length', each: 0.05, zero: null };

/**
 * Readings that fix every hole and bore, the most telling first by the survey's own planner, and half as many again so
 * that a misreading shows.
 */
export const planReadings = (plate: Plate, job: Job): ReadingPlan => plansFor(plate)(job);

/** The table, the proof and the sheets of one plate ask for the same plan. */
const plansFor = oncePer(
  (plate: Plate) => oncePer((job: Job) => planned(plate, job), new WeakMap<Job, ReadingPlan>()),
  new WeakMap<Plate, (job: Job) => ReadingPlan>(),
);

const planned = (plate: Plate, job: Job): ReadingPlan => {
  const places = measurable(plate);
  const spare = Math.ceil(places.length / 2);
  const found = plannedFrom(plate, job, [], spare);
  const readings = found.length > 0 ? found : rigidPairs(places).flatMap(([i, j]) => fromPair(places[i], places[j]));
  return {
    readings,
    within: foreseen(plate, job, readings),
    hand: handWords(places, {}),
    handAtBench: handWords(places, { atBench: true }),
    mouths: mouthWords(plate, readings),
  };
};

/** What is still to measure on a plate that has been measured in part: readings that fix the rest. */
export const planMissing = (plate: Plate, job: Job, handSettled: boolean): ReadingPlan => {
  const readings = plannedFrom(plate, job, job.drilled?.readings ?? [], 0);
  return {
    readings,
    within: null,
    hand: handSettled ? null : handWords(measurable(plate), {}),
    handAtBench: handSettled ? null : handWords(measurable(plate), { atBench: true }),
    mouths: mouthWords(plate, readings),
  };
};

/** From which side the readings are taken, and at which of them jaws do not find the hole as it is drilled. */
const mouthWords = (plate: Plate, readings: readonly PlannedReading[]): string | null => {
  if (readings.length === 0) return null;
  const read = new Set(readings.flatMap((r) => r.reading.split(' ').slice(1)));
  const side = readingSide(plate);
  const holes = plate.holes.filter((h) => read.has(h.id));
  const names = (some: typeof holes): string => sayAll(some.map((h) => h.id));
  const sunk = holes.filter((h) => h.sink?.side === side);
  const blind = holes.filter((h) => h.depth !== null && h.from !== side && h.sink?.side !== side);
  const tapped = holes.filter((h) => h.thread !== null);
  const stepped = plate.bores.filter(
    (b) =>
      read.has(b.id) &&
      plate.bores.some((o) => o.id !== b.id && distance(o, b) < 1e-6 && (o.side === 'through' || o.side === side)),
  );
  return [
    `Read them all from side ${side}, the jaws in past the chamfers.`,
    ...stepped.map((b) => `${b.id} is the wall that the jaws meet first; they do not reach deeper ones.`),
    ...(tapped.length === 0
      ? []
      : [
          `${names(tapped)} ${tapped.length === 1 ? 'counts' : 'count'} at the size of the tapping drill: measure ` +
            'before tapping, or after it over the crests of the thread.',
        ]),
    ...(sunk.length === 0
      ? []
      : [
          `Jaws meet a wider mouth on side ${side} of ` +
            `${names(sunk)}: there use a pin or drill shank that fills the hole.`,
        ]),
    ...(blind.length === 0 ? [] : [`${names(blind)} can be read from the other side only.`]),
  ].join(' ');
};

/**
 * The survey's plan for the drilled plate from the readings it has; angles are left out, since few can be read from
 * hole to hole, and places on a bench, which need no plan.
 */
const plannedFrom = (plate: Plate, job: Job, taken: readonly Reading[], spare: number): readonly PlannedReading[] => {
  const places = placesOf(plate);
  const already = taken.flatMap((r) => r.features);
  const ids = new Set([...notMeasured(plate, already).map((p) => p.id), ...already]);
  const survey = drilledSurvey(emptyFace([...ids], taken), plate, job, places);
  // A measured diameter takes the place of the drill's: it checks no other reading, and none checks it.
  const plan = surveyPlan(
    { ...survey, instruments: lengthsOf(job) },
    { places, spare, without: ['place'], leaving: ['dia'] },
  );
  return plan.flatMap(({ reading, instrument }, k): readonly PlannedReading[] => {
    const [kind = '', a = '', b] = reading.split(' ');
    const expect = expected(kind as ReadingKind, places.get(a), b === undefined ? undefined : places.get(b));
    const unit = instrument === null ? null : unitOf(job, instrument);
    return expect === null
      ? []
      : [{ reading, expect, instrument, unit, why: k < plan.length - spare ? 'needed' : 'check' }];
  });
};

/** The unit that an instrument is read in: that of most of the job's readings by it. */
const unitOf = (job: Job, instrument: string): LengthUnit | null => {
  const units = [...job.faces, ...(job.drilled === null ? [] : [job.drilled])].flatMap((f) =>
    f.readings.flatMap((r) => (r.instrument === instrument && r.unit !== null ? [r.unit] : [])),
  );
  const inches = units.filter((u) => u === 'in').length;
  return units.length === 0 ? null : 2 * inches >= units.length ? 'in' : 'mm';
};

/**
 * Instruments for lengths, with a caliper where none of them spans from hole to hole; a reading may name one of another
 * sort, which the survey then knows as well.
 */
const lengthsOf = (job: Job): ReadonlyMap<string, Instrument> => {
  const used = new Set((job.drilled?.readings ?? []).map((r) => r.instrument));
  const kept = [...job.instruments.values()].filter((i) => i.measures === 'length' || used.has(i.name));
  const tools = toolsOf(emptyFace([], job.drilled?.readings ?? []), new Map(kept.map((i) => [i.name, i])));
  return new Map((tools.has('jaws') || tools.has('scale') ? kept : [...kept, usualCaliper]).map((i) => [i.name, i]));
};

/** What a reading of one or two round features would be on a perfect plate, mm; null for kinds that are not planned. */
const expected = (kind: ReadingKind, a: Place | undefined, b: Place | undefined): number | null => {
  if (a === undefined) return null;
  if (kind === 'dia') return a.diameter;
  if (b === undefined) return null;
  return isDistance(kind) ? readOf(kind, distance(a, b), a.diameter / 2, b.diameter / 2) : null;
};

const fromPair = (a: Place | undefined, b: Place | undefined): readonly PlannedReading[] => {
  const expect = expected('over', a, b);
  return a === undefined || b === undefined || expect === null
    ? []
    : [{ reading: `over ${a.id} ${b.id}`, expect, instrument: null, unit: null, why: 'needed' }];
};

/**
 * What the survey would make of these readings, were they taken without error: its own ± of the worst-fixed hole; null
 * where they do not fix all.
 */
const foreseen = (plate: Plate, job: Job, readings: readonly PlannedReading[]): number | null => {
  const places = placesOf(plate);
  const instruments = lengthsOf(job);
  const taken = readings.map(({ reading, expect, instrument }, i): Reading => {
    const [kind = 'over', ...features] = reading.split(' ');
    const tool = instruments.get(instrument ?? '') ?? usualCaliper;
    return {
      id: String(i + 1),
      text: reading,
      kind: kind as ReadingKind,
      features,
      value: expect,
      point: null,
      plusMinus: tool.each,
      instrument: tool.name,
      aside: false,
      note: null,
      unit: 'mm',
      place: { line: 0, column: 0 },
    };
  });
  const ids = [...new Set(taken.flatMap((r) => r.features))];
  if (ids.length === 0) return null;
  const survey = drilledSurvey(emptyFace(ids, taken), plate, job, places);
  const located = locateFace(
    {
      ...survey,
      instruments: new Map([...instruments, [usualCaliper.name, instruments.get(usualCaliper.name) ?? usualCaliper]]),
    },
    { next: false, places },
  );
  if (!located.stopped.converged || located.undetermined.length > 0) return null;
  const laid = layOn(patternOf(located, ids), places);
  return Math.max(...ids.map((_, i) => radius95(laid, i)));
};

/** The drilled plate as a face with these features and readings. */
const emptyFace = (ids: readonly string[], readings: readonly Reading[]): Face => ({
  name: 'drilled',
  viewed: 'from side B',
  centre: null,
  up: null,
  across: null,
  readings,
  layout: { kind: 'measured' },
  flange: null,
  shaft: null,
  shaftSizes: null,
  rim: [],
  standard: null,
  features: ids.map((id) => ({
    id,
    kind: 'hole',
    diameter: null,
    diameterFrom: null,
    thread: null,
    clock: null,
    vacant: false,
    stands: null,
    deep: null,
    lean: null,
    height: null,
  })),
});
