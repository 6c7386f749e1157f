import type { Face, Feature, Instrument, Reading, ReadingKind } from '@fayplate/job';
import { headingOfClock } from '@fayplate/core';
import fc from 'fast-check';
import { settle } from '../src/settle.js';
import type { LocatedFace, Survey } from '../src/index.js';
import { answer } from '../src/locate.js';
import { networkOf } from '../src/network/network.js';

/** Explicit seeds: a failure is repeated by running again. */
export const seeded = { seed: 41_077, numRuns: 100 } as const;
export const within = (least: number, most: number): fc.Arbitrary<number> =>
  fc.double({ min: least, max: most, noNaN: true });

export const feature = (id: string, parts: Partial<Feature> = {}): Feature => ({
  id,
  kind: 'stud',
  diameter: { value: 10, plusMinus: null },
  diameterFrom: 'job',
  thread: null,
  clock: null,
  vacant: false,
  stands: null,
  deep: null,
  lean: null,
  height: null,
  ...parts,
});

/** A reading from its words, `over P1 P3`, with its value (mm; degrees for `angle`) and ±. */
export const reading = (
  words: string,
  value: number | readonly [number, number],
  plusMinus: number,
  parts: Partial<Reading> = {},
): Reading => {
  const [kind = '', ...names] = words.split(' ');
  const angle = kind === 'angle' || kind === 'square';
  const place = typeof value === 'number' ? null : { x: value[0], y: value[1] };
  const number = typeof value === 'number' ? value : 0;
  return {
    id: '',
    text: `${words} = ${String(value)}`,
    kind: kind as ReadingKind,
    features: names.flatMap((n) => n.split('-')),
    value: angle ? (number * Math.PI) / 180 : number,
    point: place,
    plusMinus: angle ? (plusMinus * Math.PI) / 180 : plusMinus,
    instrument: null,
    aside: false,
    note: null,
    unit: angle ? null : 'mm',
    place: { line: 1, column: 1 },
    ...parts,
  };
};

export const instrument = (
  name: string,
  each: number,
  zero: number | null = null,
  measures: Instrument['measures'] = 'length',
): Instrument => ({
  name,
  measures,
  each,
  zero,
});

/** A survey of one face; readings without an id are numbered from 1. */
export const survey = (
  features: readonly Feature[],
  readings: readonly Reading[],
  face: Partial<Face> = {},
  instruments: readonly Instrument[] = [],
): Survey => ({
  instruments: new Map(instruments.map((i) => [i.name, i])),
  face: {
    name: 'face',
    viewed: 'from outside',
    centre: null,
    up: null,
    across: null,
    features,
    readings: readings.map((r, i) => (r.id === '' ? { ...r, id: String(i + 1) } : r)),
    layout: { kind: 'measured' },
    flange: null,
    shaft: null,
    shaftSizes: null,
    rim: [],
    standard: null,
    ...face,
  },
});

export const hours = (clock: number): number => headingOfClock(clock);

/** What `locateFace` answers from a start of the test's own. */
export const locateFrom = (s: Survey, start: Float64Array): LocatedFace =>
  answer(settle(networkOf(s), [{ values: start, from: 'the test' }]));
