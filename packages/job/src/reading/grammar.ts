import type { Doubt, LengthUnit, Point } from '@fayplate/core';
import type { FaultCode } from '../types/fault.js';
import type { DistanceKind, ReadingKind } from '../types.js';

/**
 * A reading of the distance d between the centres of two round features with radii r₁ and r₂: value = k·d + a·r₁ +
 * b·r₂.
 */
export interface DistanceForm {
  readonly k: 1 | -1;
  readonly a: -1 | 0 | 1;
  readonly b: -1 | 0 | 1;
}

/**
 * What a person does with the instrument: lays jaws on rims, a scale between centres, an arm along lines, or reads a
 * place on the bench.
 */
export type Use = 'jaws' | 'scale' | 'arms' | 'place';

/** All that is particular to one kind of reading: how its words fit together, and what its number measures. */
export interface Grammar {
  readonly kind: ReadingKind;
  /** The features as written: a letter for one, `A-B` for the line through two. */
  readonly form: readonly string[];
  readonly measures: 'length' | 'angle' | 'place';
  /** What the reading says where it needs no number: square is 90°, in line is 0. */
  readonly implied: number | null;
  /** Least value that makes sense, mm or radians, and whether it may be reached. */
  readonly least: number;
  readonly leastReached: boolean;
  /** Features (by position) whose radius enters. */
  readonly radius: readonly number[];
  /** Null where the reading is not of the distance between two centres. */
  readonly distance: DistanceForm | null;
  /** Null where no instrument of the job is known to take it. */
  readonly use: Use | null;
  /**
   * How easily it is taken for another kind on the same two features, beside the others of its sort (a judgement); 0:
   * never.
   */
  readonly mistaken: number;
  readonly example: string;
}

type Rest = Partial<Pick<Grammar, 'measures' | 'implied' | 'least' | 'leastReached' | 'radius' | 'use' | 'mistaken'>>;

const grammar = (
  kind: ReadingKind,
  form: string,
  example: string,
  distance: DistanceForm | null,
  rest: Rest,
): Grammar => ({
  kind,
  form: form.split(' '),
  measures: 'length',
  implied: null,
  least: 0,
  leastReached: false,
  radius: [distance?.a ?? 0, distance?.b ?? 0].flatMap((of, i) => (of === 0 ? [] : [i])),
  distance,
  use: null,
  mistaken: 0,
  example,
  ...rest,
});

const between = (kind: DistanceKind, [k, a, b]: readonly [1 | -1, -1 | 0 | 1, -1 | 0 | 1], rest: Rest): Grammar => {
  const form = kind === 'wall' ? 'A C' : 'A B';
  return grammar(kind, form, `${kind} ${form} = ${kind === 'wall' ? '1/2' : '4 1/8'}`, { k, a, b }, rest);
};

/** The compiler asks for an entry for every kind, which the list, the reader, the schema and the survey follow. */
const byKind: Readonly<Record<ReadingKind, Grammar>> = {
  centres: between('centres', [1, 0, 0], { use: 'scale', mistaken: 2 }),
  over: between('over', [1, 1, 1], { use: 'jaws', mistaken: 4 }),
  between: between('between', [1, -1, -1], { use: 'jaws', mistaken: 4, leastReached: true }),
  step: between('step', [1, -1, 1], { use: 'jaws', mistaken: 1, least: -Infinity, leastReached: true }),
  wall: between('wall', [-1, -1, 1], { use: 'jaws', leastReached: true }),
  dia: grammar('dia', 'A', 'dia A = 3/8', null, { radius: [0], use: 'jaws' }),
  angle: grammar('angle', 'A V B', 'angle A V B = 60', null, { measures: 'angle', leastReached: true, use: 'arms' }),
  square: grammar('square', 'A-B C-D', 'square A-B C-D', null, { measures: 'angle', implied: Math.PI / 2 }),
  line: grammar('line', 'A B C', 'line A B C', null, { implied: 0 }),
  flush: grammar('flush', 'A B C', 'flush A B C', null, { implied: 0, radius: [0, 1, 2] }),
  offset: grammar('offset', 'A B-C', 'offset A B-C = 2 1/4', null, { leastReached: true }),
  // Its words are distinguished in `run-out.ts`: about, at, high toward.
  runout: grammar('runout', 'A B', 'runout A about B = 0.004 high toward C by dial', null, { leastReached: true }),
  at: grammar('at', 'A', 'at A = (12.5, -40)', null, { measures: 'place', use: 'place' }),
  touch: grammar('touch', 'C', 'touch C = (12.5, -40)', null, { measures: 'place', radius: [0] }),
};

const grammars: readonly Grammar[] = Object.values(byKind);

/** Every kind of reading, in the order in which they are listed for a person. */
export const readingKinds: readonly ReadingKind[] = grammars.map((g) => g.kind);

const kinds: ReadonlySet<string> = new Set(readingKinds);

/** Whether a text begins with a kind of reading and what it is of. */
export const beginsReading = (text: string): boolean => {
  const [kind = '', of = ''] = text.split(/\s+/, 2);
  return kinds.has(kind.toLowerCase()) && of !== '';
};

export const grammarOf = (kind: string): Grammar | undefined => grammars.find((g) => g.kind === kind.toLowerCase());

/** The record of one kind: its words, its form, whose radius enters, with what it is taken. */
export const readingGrammar = (kind: ReadingKind): Grammar => byKind[kind];

/** Whether a kind reads the distance between two centres. */
export const isDistance = (kind: string): kind is DistanceKind =>
  kinds.has(kind) && byKind[kind as ReadingKind].distance !== null;

/** The coefficients of a distance reading. */
export const distanceForm = (kind: DistanceKind): DistanceForm => {
  const { distance } = byKind[kind];
  if (distance === null) throw new RangeError(`${kind} is no reading of a distance between centres`);
  return distance;
};

/** Where on a round feature a distance is taken from or to. */
export type TakenAt = 'centre' | 'near side' | 'far side';

const takenAt = (radius: -1 | 0 | 1): TakenAt => (radius === 0 ? 'centre' : radius > 0 ? 'far side' : 'near side');

/**
 * Where on its two features a distance reading is taken, in their order, for the words that say it; null: within the
 * second, in whose bore the first lies.
 */
export const sidesOf = (kind: DistanceKind): readonly [TakenAt, TakenAt] | null => {
  const { k, a, b } = distanceForm(kind);
  return k < 0 ? null : [takenAt(a), takenAt(b)];
};

/** Whether a radius enters a reading of this kind. */
export const usesRadius = (kind: ReadingKind): boolean => byKind[kind].radius.length > 0;

/** What a distance reading says of centres `apart` from each other, radii `first` and `second`; all mm. */
export const readOf = (kind: DistanceKind, apart: number, first: number, second: number): number => {
  const { k, a, b } = distanceForm(kind);
  return k * apart + a * first + b * second;
};

/**
 * How far apart the centres are by a distance reading of this value, radii `first` and `second`; all mm; below zero
 * where none are.
 */
export const apartBy = (kind: DistanceKind, value: number, first: number, second: number): number => {
  const { k, a, b } = distanceForm(kind);
  return k * (value - a * first - b * second);
};

/** A piece of a line and where it starts in it. */
export interface Piece {
  readonly text: string;
  readonly at: number;
}

/** A reading line taken apart; names are not looked up yet. */
export interface ReadLine {
  readonly text: string;
  readonly aside: boolean;
  readonly grammar: Grammar;
  readonly features: readonly Piece[];
  readonly value: number;
  readonly point: Point | null;
  readonly plusMinus: number | null;
  readonly unit: LengthUnit | null;
  readonly instrument: Piece | null;
  readonly note: string | null;
  /** The number as written, for what the instrument was read to. */
  readonly written: Piece | null;
  readonly unevenPlace: boolean;
  /** What is doubtful about the value and its ±; null: nothing. */
  readonly doubt: Doubt | null;
  /** Of a run-out reading alone. */
  readonly runOut?: WrittenRunOut;
}

export interface LineFault {
  readonly code: FaultCode;
  readonly at: number;
  readonly found: string;
  readonly expected: string;
  readonly among?: readonly string[];
}

export type LineRead =
  | { readonly ok: true; readonly line: ReadLine }
  | { readonly ok: false; readonly fault: LineFault };

/** What a run-out line says beside its features, its value and its instrument. */
export interface WrittenRunOut {
  /** mm from the axis at which a face was swept; null: a rim was. */
  readonly radius: number | null;
  readonly high: {
    readonly toward: { readonly feature: string } | { readonly clockwise: number };
    readonly within: number;
    readonly at: Piece;
  } | null;
}
