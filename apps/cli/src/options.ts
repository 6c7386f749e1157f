import { type Command, InvalidArgumentError } from 'commander';
import { Refusal } from './answer.js';

/** What every command that takes a job understands. */
export interface CommonOptions {
  readonly json?: boolean;
  readonly units?: 'in' | 'mm';
  readonly fractions?: number;
  readonly quiet?: boolean;
  readonly verbose?: boolean;
  readonly setAside?: readonly string[];
}

export const asUnits = (text: string): 'in' | 'mm' => {
  if (text === 'in' || text === 'mm') return text;
  throw new InvalidArgumentError('in or mm.');
};

export const asFraction = (text: string): number => {
  const parts = Number(/^(?:1\/)?(\d{1,3})$/.exec(text)?.[1]);
  if ([2, 4, 8, 16, 32, 64, 128].includes(parts)) return parts;
  throw new InvalidArgumentError('8, 16, 32 or 64.');
};

export const asCount = (least: number, most: number) => (text: string): number => {
  const n = Number(text);
  if (Number.isInteger(n) && n >= least && n <= most) return n;
  throw new InvalidArgumentError(`a whole number from ${least} to ${most}.`);
};

export const collect = (text: string, before: readonly string[] = []): readonly string[] => [...before, text];

/** The options that every command shares, in one order, so that help reads alike everywhere. */
export const withCommonOptions = (command: Command): Command =>
  command
    .option('--json', 'one JSON document on standard output and nothing else')
    .option('--units <unit>', 'say lengths in `in` or `mm` instead of the job’s own units', asUnits)
    .option('--fractions <n>', 'say inches in fractions, to the nearest 1/n', asFraction)
    .option('--set-aside <id>', 'leave a reading out this time: FACE:ID, or ID for every face; may be repeated', collect)
    .option('--quiet', 'no warnings')
    .option('--verbose', 'if Fayplate itself fails, say where in it');

/** `pump:7` → the ids set aside on one face. */
export const asideOn = (face: string, all: readonly string[] = []): readonly string[] =>
  all.flatMap((entry) => {
    const cut = entry.indexOf(':');
    if (cut < 0) return [entry];
    return entry.slice(0, cut) === face ? [entry.slice(cut + 1)] : [];
  });

export const need = <T>(value: T | null | undefined, words: string): T => {
  if (value === null || value === undefined) throw new Refusal(words);
  return value;
};
