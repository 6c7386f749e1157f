import { formatFraction, formatLength, roundTo } from '../units/format.js';
import { type LengthUnit, MM_PER_INCH, perUnit } from '../units/length.js';

/**
 * How lengths are said to a person: the unit, the decimal places, and fractions of an inch where asked (1/`fraction`).
 */
export interface Speech {
  readonly unit: LengthUnit;
  readonly fraction: number | null;
  /**
   * For paper and for the page at the machine, where no word of the job file is named; left out: the reader has the
   * file before him.
   */
  readonly atBench?: boolean;
}

/** One of the two forms of a sentence: with the words of the job file, or as it is said at the bench. */
export const forReader = (inFile: string, atBench: string, { atBench: bench }: Pick<Speech, 'atBench'>): string =>
  bench === true ? atBench : inFile;

/** How lengths of a job in this unit are said; decimals unless a fraction is asked for. */
export const speechFor = (unit: LengthUnit, fraction: number | null = null): Speech => ({ unit, fraction });

/**
 * A length without its unit, for a table whose heading names it: mm to 0.001, inch to 0.0001 unless told; as a fraction
 * only where it is one to those places.
 */
export const sayNumber = (mm: number, speech: Speech, places?: number): string => {
  const decimal = formatLength(mm, speech.unit, places);
  if (speech.unit === 'mm' || speech.fraction === null) return decimal;
  // Rounded to a fraction, a size would be another size, and a limit no limit.
  const nearest = roundTo(mm, MM_PER_INCH / speech.fraction);
  return formatLength(nearest, 'in', places) === decimal ? formatFraction(mm, speech.fraction) : decimal;
};

/** A place that is laid out by rule, without its unit: to the nearest fraction where fractions are asked for. */
export const sayNearest = (mm: number, speech: Speech): string =>
  speech.unit === 'in' && speech.fraction !== null ? formatFraction(mm, speech.fraction) : sayNumber(mm, speech);

/** A length with its unit. */
export const say = (mm: number, speech: Speech, places?: number): string =>
  `${sayNumber(mm, speech, places)} ${speech.unit}`;

const toStep = (round: (steps: number) => number, mm: number, speech: Speech, places: number): string => {
  const step = perUnit(speech.unit) / 10 ** places;
  return say(round(mm / step) * step, { ...speech, fraction: null }, places);
};

/** A length of which there is at least so much, with its unit: rounded down, so that it stays true. */
export const sayAtLeast = (mm: number, speech: Speech, places: number): string =>
  toStep((steps) => Math.floor(steps + 1e-6), mm, speech, places);

/** A length of which so much is wanted, with its unit: rounded up, so that it is enough. */
export const sayEnough = (mm: number, speech: Speech, places: number): string =>
  toStep((steps) => Math.ceil(steps - 1e-6), mm, speech, places);

/** A length with its unit and no zeros at its end, as it is typed: `8 mm`, `0.3 in`. */
export const sayTyped = (mm: number, { unit }: Pick<Speech, 'unit'>, places?: number): string =>
  `${Number(formatLength(mm, unit, places))} ${unit}`;

/** A length with its ±, both in one unit: `3.5310 ± 0.0020 in`; never as fractions, whose step would hide the ±. */
export const sayMeasure = (mm: number, plusMinus: number, speech: Speech, places?: number): string => {
  const plain = { ...speech, fraction: null };
  return `${sayNumber(mm, plain, places)} ± ${say(plusMinus, plain, places)}`;
};

/** Least difference that is a difference, mm; and how many more places may be needed to show it. */
const SAME = 1e-6;
const MORE = 4;

/** Two lengths beside each other, with as many places as it takes that two which differ are not printed alike. */
export const sayApart = (a: number, b: number, speech: Speech, places: number): readonly [a: string, b: string] => {
  const same = Math.abs(a - b) < SAME;
  for (let more = 0; ; more++) {
    const [one, other] = [say(a, speech, places + more), say(b, speech, places + more)];
    if (same || one !== other || more === MORE) return [one, other];
  }
};

/** A part's name in a sentence: `the pump`; a name that begins so already stays. */
export const thePart = (name: string): string => (name.startsWith('the ') ? name : `the ${name}`);
