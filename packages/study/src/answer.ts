import { type Report, speechFor, verdictOf } from '@fayplate/core';
import { type Fault, type Job, fingerprintOf, readJob } from '@fayplate/job';
import { runOnPieces } from './both-pieces.js';
import type { Command, Found, MadeFile } from './command.js';
import { type Options, refuseUnknownAside } from './options.js';
import { Faulty, Refusal, Unmet, Unsettled } from './refusal.js';
import type { World } from './world.js';

/** Every command that works on a job file. Its code is loaded when it is asked for. */
const commands = {
  check: async () => (await import('./commands/check.js')).check,
  locate: async () => (await import('./commands/locate.js')).locate,
  layout: async () => (await import('./commands/layout.js')).layout,
  buy: async () => (await import('./commands/buy.js')).buy,
  stack: async () => (await import('./commands/stack.js')).stack,
  plate: async () => (await import('./commands/plate.js')).plate,
  table: async () => (await import('./commands/table.js')).table,
  print: async () => (await import('./commands/print.js')).print,
  prove: async () => (await import('./commands/prove.js')).prove,
  trial: async () => (await import('./commands/trial.js')).trial,
  compare: async () => (await import('./commands/compare.js')).compare,
  packet: async () => (await import('./commands/packet.js')).packet,
} as const satisfies Readonly<Record<string, () => Promise<Command>>>;

/** The name of a command that works on a job file. */
export type JobCommand = keyof typeof commands;

/** The answer to one command on one job, with nothing written or shown yet. */
export interface Answer {
  /** 0 done and sound; 1 done, and the answer is no; 2 the input is at fault; 3 the program is. */
  readonly exit: 0 | 1 | 2 | 3;
  /** The job's name; null where it could not be read. */
  readonly job: string | null;
  /** For a person; empty where there is no answer. */
  readonly report: Report;
  /** What `--verbose` adds: how every reading fits. */
  readonly more: () => Report;
  /** For a program: one whole document, lengths in mm, angles in degrees. */
  readonly json: object;
  /** The files asked for, in order. Nothing is written before all are made. */
  readonly files: readonly MadeFile[];
  /** A text that was asked for in place of words (`table` as CSV or as a program with no file named); else null. */
  readonly instead: string | null;
  /** What is wrong with the job file, by line and column; then nothing else was worked out. */
  readonly faults: readonly Fault[];
  /** What is legal in the file but unlikely, by line and column. */
  readonly unlikely: readonly Fault[];
  /** What else a person should know, a sentence or more each. */
  readonly warnings: readonly string[];
  /** Why there is no answer, in words; null where there is one, or where `faults` say it. */
  readonly error: string | null;
  /** What was thrown where the fault is ours (exit status 3). */
  readonly thrown?: unknown;
}

const silent = {
  report: [],
  more: () => [],
  files: [],
  instead: null,
  faults: [],
  unlikely: [],
  warnings: [],
} as const;

const failed = (job: string | null, command: string, error: unknown): Omit<Answer, 'warnings' | 'unlikely'> => {
  const words = error instanceof Error ? error.message : String(error);
  return {
    ...silent,
    job,
    exit: error instanceof Unsettled ? 1 : error instanceof Refusal ? 2 : 3,
    json: { fayplate: 1, job: null, command, error: words },
    error: words,
    ...(error instanceof Refusal ? {} : { thrown: error }),
  };
};

const worked = async (
  command: JobCommand,
  job: Job,
  unlikely: readonly Fault[],
  options: Options,
  world: World,
  warn: (words: string) => void,
): Promise<Found> => {
  const speech = speechFor(options.units ?? job.units, options.fractions ?? null);
  refuseUnknownAside(job, options.setAside);
  if (options.fractions !== undefined && speech.unit === 'mm')
    warn('--fractions needs inches, and this job is in mm: add --units in.');
  const run: Command = await commands[command]();
  return await runOnPieces(run, command, { job, options, speech, unlikely, warn, world });
};

/**
 * Reads a job file's text and answers one command on it. The same for every app: nothing is read or written but through
 * `world`. Never throws: faults of the file, refusals in words and faults of ours all come as an answer with its exit
 * status.
 */
export const answer = async (text: string, command: JobCommand, options: Options, world: World): Promise<Answer> => {
  const warnings: string[] = [];
  let name: string | null = null;
  let unlikely: readonly Fault[] = [];
  try {
    const read = readJob(text, world.beside === undefined ? {} : { csv: world.beside });
    if (!read.ok)
      return {
        ...silent,
        exit: 2,
        job: null,
        error: null,
        faults: read.faults,
        json: { fayplate: 1, job: null, command, faults: read.faults },
      };
    name = read.job.name;
    unlikely = read.warnings;
    const found = await worked(command, read.job, unlikely, options, world, (words) => void warnings.push(words));
    return {
      ...silent,
      unlikely,
      warnings,
      exit: found.exit,
      job: name,
      report: found.report,
      more: found.more ?? silent.more,
      json: { fayplate: 1, job: name, fingerprint: fingerprintOf(read.job), command, ...found.json },
      files: found.files ?? [],
      instead: found.instead ?? null,
      error: null,
    };
  } catch (error) {
    if (error instanceof Faulty) {
      const { faults } = error;
      return {
        ...silent,
        exit: 2,
        job: name,
        error: null,
        faults,
        unlikely,
        warnings,
        json: { fayplate: 1, job: null, command, faults },
      };
    }
    if (error instanceof Unmet) {
      const { verdictBlocks, verdictJson } = await import('./verdict-words.js');
      const verdict = verdictOf(error.requirements, '');
      const json = { fayplate: 1, job: name, command, verdict: verdictJson(verdict) };
      return { ...silent, exit: 1, job: name, json, report: verdictBlocks(verdict), error: null, unlikely, warnings };
    }
    return { ...failed(name, command, error), unlikely, warnings };
  }
};
