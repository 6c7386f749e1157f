import {
  type Doubt,
  type LengthUnit,
  type Parsed,
  type Point,
  doubtOfAngle,
  doubtOfMeasure,
  parseAngleMeasure,
  parseLength,
  parseLengthBand,
  parseLengthMeasure,
  parsed,
  perUnit,
  refused,
  splitUnit,
} from '@fayplate/core';
import { above, parseAngleBand } from '../schema/values.js';
import type { Grammar, Piece } from './grammar.js';
import { parsePlace } from './point.js';

const unitOf = (value: string, tolerance: string | null, job: LengthUnit): LengthUnit => {
  const factor = splitUnit(value).factor ?? (tolerance === null ? null : splitUnit(tolerance).factor);
  return factor === null ? job : unitOfFactor(factor);
};

const unitOfFactor = (factor: number): LengthUnit => ([1, 0.001].includes(factor) ? 'mm' : 'in');

/** What the value and the ± of a line say: mm or radians. */
interface Numbers {
  readonly value: number;
  readonly plusMinus: number | null;
  readonly point: Point | null;
  readonly unit: LengthUnit | null;
  readonly unevenPlace: boolean;
  /** What is doubtful about the value and its ±; null: nothing. */
  readonly doubt: Doubt | null;
}

const plainNumbers = (
  value: number,
  plusMinus: number | null,
  unit: LengthUnit | null,
  doubt: Doubt | null = null,
): Parsed<Numbers> => parsed({ value, plusMinus, point: null, unit, unevenPlace: false, doubt });

/** ± of a reading that needs no number. */
const impliedNumbers = (
  grammar: Grammar,
  implied: number,
  tolerance: Piece | null,
  job: LengthUnit,
): Parsed<Numbers> => {
  const angle = grammar.measures === 'angle';
  if (tolerance === null) return plainNumbers(implied, null, angle ? null : job);
  const band = angle ? parseAngleBand(tolerance.text) : parseLengthBand(tolerance.text, job);
  return band.ok ? plainNumbers(implied, band.value, angle ? null : unitOf(tolerance.text, null, job)) : band;
};

/**
 * What is doubtful about the unit of a ± as that of a place without its own: judged by the greater coordinate, as a
 * length would be.
 */
const doubtOfPlace = (place: string, tolerance: string, job: LengthUnit): Doubt | null => {
  const own = parsePlace(place, job);
  if (!own.ok || own.value.factor !== null || own.value.uneven) return null;
  const { x, y } = own.value.point;
  const greatest = Math.max(Math.abs(x), Math.abs(y)) / perUnit(job);
  const doubt = greatest === 0 ? null : doubtOfMeasure(`${greatest.toFixed(9)} ± ${tolerance}`, job);
  return doubt?.code === 'plus-minus-unit' ? doubt : null;
};

const placeNumbers = (value: Piece, tolerance: Piece | null, job: LengthUnit): Parsed<Numbers> => {
  // Only what stands before the first ± is the place.
  if (tolerance !== null && value.text.trim().startsWith('(') && !value.text.includes(')'))
    return refused('one ± for both lengths, behind the bracket, such as (12.5, -40) ± 0.05');
  const doubt = tolerance === null ? null : doubtOfPlace(value.text, tolerance.text, job);
  const shared = tolerance === null || doubt !== null ? null : splitUnit(tolerance.text).factor;
  const place = parsePlace(value.text, job, shared);
  if (!place.ok) return place;
  const { point, factor, uneven } = place.value;
  const behind = doubt === null ? (tolerance?.text ?? null) : null;
  const unit = factor === null ? unitOf('', behind, job) : unitOfFactor(factor);
  const band =
    tolerance === null ? null : above(0, 'a ± above zero', parseLength(tolerance.text, factor ?? perUnit(job)));
  if (band !== null && !band.ok) return band;
  return parsed({ value: 0, plusMinus: band?.value ?? null, point, unit, unevenPlace: uneven, doubt });
};

const measuredNumbers = (grammar: Grammar, value: Piece, tolerance: Piece | null, job: LengthUnit): Parsed<Numbers> => {
  const angle = grammar.measures === 'angle';
  const whole = tolerance === null ? value.text : `${value.text} ± ${tolerance.text}`;
  const m = angle ? parseAngleMeasure(whole) : parseLengthMeasure(whole, job);
  if (!m.ok) return m;
  const v = m.value.value;
  if (grammar.leastReached ? v < grammar.least : v <= grammar.least)
    return refused(grammar.leastReached ? 'a value not below zero' : 'a value above zero');
  if (angle && v > Math.PI + 1e-12) return refused('an angle of at most 180°');
  if (angle) return plainNumbers(v, m.value.plusMinus, null, doubtOfAngle(whole));
  const doubt = doubtOfMeasure(whole, job);
  // A length from a line or to a far side may well be nothing, whatever its ±.
  const near = doubt?.code === 'wide-plus-minus' && grammar.leastReached;
  const own = doubt?.code === 'plus-minus-unit';
  return plainNumbers(
    v,
    m.value.plusMinus,
    own ? unitOf(value.text, null, job) : unitOf(value.text, tolerance?.text ?? null, job),
    near ? null : doubt,
  );
};

/** Value and ± of a line, whichever its kind asks for. */
export const numbers = (
  grammar: Grammar,
  value: Piece | null,
  tolerance: Piece | null,
  job: LengthUnit,
): Parsed<Numbers> => {
  if (grammar.implied !== null) return impliedNumbers(grammar, grammar.implied, tolerance, job);
  if (value === null) return refused(`= and a value, as in: ${grammar.example}`);
  if (grammar.measures === 'place') return placeNumbers(value, tolerance, job);
  return measuredNumbers(grammar, value, tolerance, job);
};

/** A value written where the kind has its own: it may repeat it. */
export const repeats = (grammar: Grammar, value: Piece, job: LengthUnit): boolean => {
  const m = grammar.measures === 'angle' ? parseAngleMeasure(value.text) : parseLengthMeasure(value.text, job);
  return m.ok && Math.abs(m.value.value - (grammar.implied ?? 0)) < 1e-9;
};
