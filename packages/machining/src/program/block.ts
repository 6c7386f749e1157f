import { type LengthUnit, perUnit } from '@fayplate/core';
import { placesIn } from '../frame/rounding.js';

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

/** A dimension word in the program's unit, as the table prints it: `X-12.700`. */
export const dimension = (letter: string, mm: number, unit: LengthUnit): string => {
  const text = (mm / perUnit(unit)).toFixed(placesIn(unit));
  return `${letter}${/^-0\.0*$/.test(text) ? text.slice(1) : text}`;
};

/** A feed word, unit per minute; a tap's in full, for it must stay its pitch times its turns. */
export const feedWord = (mmPerMinute: number, unit: LengthUnit, exact: boolean): string => {
  const places = exact ? 4 : unit === 'in' ? 2 : 0;
  return `F${Number(Math.max(10 ** -places, mmPerMinute / perUnit(unit)).toFixed(places))}`;
};
