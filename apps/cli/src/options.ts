import { type Command, InvalidArgumentError, Option } from 'commander';
import { type Job, nearestName } from '@fayplate/job';
import { Refusal } from './answer.js';

/** What every command that takes a job understands. */
export interface CommonOptions {
  readonly json?: boolean;
  readonly units?: 'in' | 'mm';
  readonly fractions?: number;
  readonly quiet?: boolean;
  readonly verbose?: boolean;
  readonly setAside?: readonly string[];
  // Of the commands that write files; `-` is standard output.
  readonly out?: string;
  readonly picture?: string;
  readonly step?: string;
}

/** An option that takes one of a few words. */
export const oneOf = (flags: string, words: readonly string[], description: string): Option =>
  new Option(flags, description).choices(words);

export const unitsOption = (description: string): Option => oneOf('--units <unit>', ['in', 'mm'], description);

export const asFraction = (text: string): number => {
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

/** `pump:7` → the ids set aside on one face. */
export const asideOn = (face: string, all: readonly string[] = []): readonly string[] =>
  all.flatMap((entry) => {
    const cut = entry.indexOf(':');
    if (cut < 0) return [entry];
    return entry.slice(0, cut) === face ? [entry.slice(cut + 1)] : [];
  });

/** A reading that is not there cannot be set aside: a slip here would pass for an answer without it. */
export const refuseUnknownAside = (job: Job, all: readonly string[] = []): void => {
  for (const entry of all) {
    const faces = job.faces.filter((f) => asideOn(f.name, [entry]).length > 0);
    const ids = faces.flatMap((f) => [...f.readings.map((r) => r.id), ...f.features.map((x) => `diameter ${x.id}`)]);
    if (faces.some((f) => asideOn(f.name, [entry]).some((id) => ids.includes(id)))) continue;
    if (faces.length === 0)
      throw new Refusal(
        `--set-aside ${entry}: there is no face of that name; the faces are ${job.faces.map((f) => f.name).join(', ')}`,
      );
    const id = entry.slice(entry.indexOf(':') + 1);
    const near = /^\d+$/.test(id) ? null : nearestName(id, ids);
    throw new Refusal(
      `--set-aside ${entry}: there is no such reading${near === null ? '' : `; did you mean ${near}?`}. Readings are numbered from 1 in the order of the file, face by face, such as ${job.faces[0]?.name ?? 'pump'}:3`,
    );
  }
};

export const need = <T>(value: T | null | undefined, words: string): T => {
  if (value === null || value === undefined) throw new Refusal(words);
  return value;
};
