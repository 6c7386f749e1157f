import { type LengthUnit, perUnit } from '@fayplate/core';
import { placesIn } from '../frame/places.js';
import type { TableRow } from '../types.js';

/** Writes blocks with their sequence numbers; a comment stands in a line of its own, without a number. */
export interface Tape {
  readonly say: (text: string) => void;
  readonly block: (...words: readonly string[]) => void;
  readonly text: () => string;
}

export const tape = (): Tape => {
  const lines: string[] = [];
  let n = 0;
  return {
    say: (text) => void lines.push(text),
    block: (...words) => {
      n += 10;
      lines.push([`N${n}`, ...words].join(' '));
    },
    text: () => `%\n${lines.join('\n')}\n%\n`,
  };
};

/** A dimension word in the program's unit, as the table prints it, or to some places more: `X-12.700`. */
export const dimension = (letter: string, mm: number, unit: LengthUnit, finer = 0): string => {
  const text = (mm / perUnit(unit)).toFixed(placesIn(unit) + finer);
  return `${letter}${/^-0\.0*$/.test(text) ? text.slice(1) : text}`;
};

/** A feed word, unit per minute; a tap's in full, for it must stay its pitch times its turns. */
export const feedWord = (mmPerMinute: number, unit: LengthUnit, exact: boolean): string => {
  const places = exact ? 4 : unit === 'in' ? 2 : 0;
  return `F${Number(Math.max(10 ** -places, mmPerMinute / perUnit(unit)).toFixed(places))}`;
};

/** Signs that have a usual word in capitals. */
const spoken: Readonly<Record<string, string>> = {
  '⌀': ' DIA ',
  Ø: ' DIA ',
  '°': ' DEG ',
  '×': ' X ',
  '±': ' +- ',
  '″': ' IN ',
  '"': ' IN ',
  '→': ' TO ',
  '–': '-',
  '—': '-',
  '−': '-',
  '⁄': '/',
  '’': '',
};

/**
 * A comment between control-out and control-in. Whatever a person named a job or a drill, nothing in it can be read as
 * code: capitals, digits, space and . + - / only, so neither a bracket that ends the comment nor a comma or colon that
 * some controls take for a command survives. `kind`: a word of ours that every comment starts with; what does not fit
 * into one line goes on in another of its kind, for a number that is cut off reads as another.
 */
export const comment = (kind: string, text: string): string => {
  const plain = [...text]
    .map((c) => spoken[c] ?? c)
    .join('')
    .normalize('NFKD')
    .replaceAll('⁄', '/')
    .replaceAll(/\p{M}/gu, '')
    .toUpperCase()
    .replaceAll(/[^A-Z0-9 .+/-]/g, ' ')
    .replaceAll(/ +/g, ' ')
    .replace(/ \.$/, '.')
    .trim();
  const lines: string[] = [];
  for (const word of plain.split(' ')) {
    const last = lines.at(-1);
    const longer = `${last ?? kind} ${word}`.trim();
    if (last !== undefined && longer.length <= LONGEST_COMMENT) lines[lines.length - 1] = longer;
    else lines.push(`${kind} ${word}`.trim().slice(0, LONGEST_COMMENT));
  }
  return lines.map((line) => `(${line})`).join('\n');
};

/** Letters of a comment that every control shows. */
const LONGEST_COMMENT = 72;

/** Deeper than this many diameters a drill is withdrawn to clear its chips (common practice). */
const PECK_BEYOND = 3;

/**
 * The canned cycle of a row (ISO 6983-1): G81 drill, G83 with chips cleared every diameter, G84 tap, G85 feed out again
 * as well. No dwell at the bottom of a seat, since controls do not agree on its unit. Null for what is not drilled.
 */
export const cycleWords = (row: TableRow, unit: LengthUnit, dry: boolean): readonly string[] | null => {
  switch (row.op) {
    case 'face':
    case 'turn':
    case 'mill':
      return null;
    case 'pilot':
    case 'drill':
      return row.depth > PECK_BEYOND * row.toolDiameter ? ['G83', dimension('Q', row.toolDiameter, unit)] : ['G81'];
    case 'tap':
      return dry ? ['G81'] : ['G84'];
    case 'bore':
    case 'ream':
      return ['G85'];
    default:
      return ['G81'];
  }
};
