import type { Options } from '@fayplate/study';
import { type Command, InvalidArgumentError, Option } from 'commander';
import type { Io } from './io.js';

/** What every command that takes a job understands. */
export interface CommonOptions extends Options {
  readonly json?: boolean;
  readonly quiet?: boolean;
  readonly force?: boolean;
  /** `compare`: the job file as it was. */
  readonly with?: string;
}

/** An option that takes one of a few words. */
export const oneOf = (flags: string, words: readonly string[], description: string): Option =>
  new Option(flags, description).choices(words);

export const unitsOption = (description: string): Option => oneOf('--units <unit>', ['in', 'mm'], description);

const asFraction = (text: string): number => {
  const parts = Number(/^(?:1\/)?(\d{1,3})$/.exec(text)?.[1]);
  if ([2, 4, 8, 16, 32, 64, 128].includes(parts)) return parts;
  throw new InvalidArgumentError('It takes 8, 16, 32 or 64.');
};

export const asCount =
  (least: number, most: number) =>
  (text: string): number => {
    const n = Number(text);
    if (Number.isInteger(n) && n >= least && n <= most) return n;
    throw new InvalidArgumentError(`It takes a whole number from ${least} to ${most}.`);
  };

export const collect = (text: string, before: readonly string[] = []): readonly string[] => [...before, text];

/** The options that every command shares, in one order, so that help reads alike everywhere. */
export const withCommonOptions = (command: Command): Command =>
  command
    .option('--json', 'one JSON document on standard output and nothing else')
    .addOption(unitsOption('how lengths are said, instead of in the job’s own units'))
    .option(
      '--fractions <n>',
      'say inches in fractions: places to the nearest 1/n, sizes and limits where they are one',
      asFraction,
    )
    .option(
      '--set-aside <id>',
      'leave a reading out this time: FACE:ID, or ID for every face; may be repeated',
      collect,
    )
    .option('--quiet', 'no warnings and no progress')
    .option('--verbose', 'also how each reading fits; of a fault of the program, where it lies');

/** Adds one command to the program; `done` takes its exit status. */
export type AddCommand = (program: Command, io: Io, done: (status: number) => void) => void;
