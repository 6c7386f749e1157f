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

/** A feed word, unit per minute: four decimals, for a tap's feed must stay its pitch times its turns. */
export const feedWord = (mmPerMinute: number, unit: LengthUnit): string => `F${Number((mmPerMinute / perUnit(unit)).toFixed(4))}`;
