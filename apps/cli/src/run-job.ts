import { dirname, isAbsolute, join } from 'node:path';
import { type Speech, inert, speechFor } from '@fayplate/core';
import { type Fault, type Job, faultLines, readJob } from '@fayplate/job';
import { type Answer, NoAnswer, Refusal } from './answer.js';
import type { Io } from './io.js';
import { type CommonOptions, refuseUnknownAside } from './options.js';
import { WriteRefused } from './files/write.js';
import { type Progress, progressBar } from './terminal/progress.js';
import { terminalText } from './terminal/report.js';

export interface JobContext {
  readonly io: Io;
  readonly job: Job;
  readonly path: string;
  readonly speech: Speech;
  readonly warnings: readonly Fault[];
  /** Says something on standard error, unless `--quiet` was asked for. */
  readonly warn: (words: string) => void;
  /** Told how far long work has come. */
  readonly progress: Progress;
}

/** Where the readings of a job may come from beside it: a file in its own folder or below, never above. */
const besideJob =
  (io: Io, jobPath: string) =>
  (name: string): string | null => {
    if (isAbsolute(name) || name.split(/[\\/]/).includes('..')) return null;
    try {
      return io.read(join(jobPath === '-' ? '.' : dirname(jobPath), name));
    } catch {
      return null;
    }
  };

const unread: Readonly<Record<string, string>> = {
  ENOENT: 'is not there: no such file',
  EISDIR: 'is a folder: name the job file in it',
  EACCES: 'cannot be read: you have no right to',
  ERR_STRING_TOO_LONG: 'is far too long for a job file',
};

const readText = (io: Io, path: string): string => {
  try {
    return io.read(path);
  } catch (error) {
    const code = (error as NodeJS.ErrnoException).code ?? 'unknown fault';
    throw new Refusal(
      Object.hasOwn(unread, code) ? `${path} ${unread[code] ?? ''}` : `${path} cannot be read (${code})`,
    );
  }
};

const printJson = (io: Io, value: unknown): void => io.out(`${JSON.stringify(value, null, 2)}\n`);

/** A message may be of several lines, and may quote what somebody wrote. */
export const told = (message: string): string => message.split('\n').map(inert).join('\n');

const fail = (io: Io, command: string, options: CommonOptions, code: 2 | 3, message: string, more: object): number => {
  if (options.json === true) printJson(io, { fayplate: 1, job: null, command, error: message, ...more });
  io.err(`fayplate ${command}: ${told(message)}\n`);
  return code;
};

/** Runs one command on one job file and answers with the exit status of the contract (0, 1, 2 or 3). */
export const runJob = async (
  command: string,
  path: string,
  options: CommonOptions,
  io: Io,
  work: (context: JobContext) => Answer | Promise<Answer>,
): Promise<number> => {
  try {
    // A file on standard output stands there alone: words go to standard error.
    const piped = [options.out, options.picture, options.step].includes('-');
    if (piped && options.json === true)
      throw new Refusal('--json and a file written to - both want standard output: give the file a name');
    const text = readText(io, path);
    const read = readJob(text, { csv: besideJob(io, path) });
    if (!read.ok) {
      if (options.json === true) printJson(io, { fayplate: 1, job: null, command, faults: read.faults });
      io.err(`${faultLines(text, read.faults).join('\n')}\n`);
      io.err(
        `${inert(path)}: ${read.faults.length === 1 ? 'one fault' : `${read.faults.length} faults`}; nothing was worked out.\n`,
      );
      return 2;
    }
    if (options.quiet !== true && read.warnings.length > 0)
      io.err(
        `${faultLines(text, read.warnings)
          .map((w) => `Warning: ${w}`)
          .join('\n')}\n`,
      );
    const speech = speechFor(options.units ?? read.job.units, options.fractions ?? null);
    refuseUnknownAside(read.job, options.setAside);
    const warn = (words: string): void => {
      if (options.quiet !== true) io.err(`Warning: ${told(words)}\n`);
    };
    if (options.fractions !== undefined && speech.unit === 'mm')
      warn('--fractions says inches; this job is said in mm. Add --units in.');
    const answer = await work({
      io,
      job: read.job,
      path,
      speech,
      warnings: read.warnings,
      warn,
      progress: progressBar(io, options.quiet === true),
    });
    if (answer.file !== undefined && answer.file.out !== null)
      io.write([{ path: answer.file.out, content: answer.file.content }], answer.file.force);
    if (options.json === true) printJson(io, { fayplate: 1, job: read.job.name, command, ...answer.json });
    else if (answer.file !== undefined && answer.file.out === null) io.out(answer.file.content);
    else
      (piped ? io.err : io.out)(
        terminalText(options.verbose === true ? [...answer.report, ...(answer.more?.() ?? [])] : answer.report, io),
      );
    return answer.code;
  } catch (error) {
    if (error instanceof Refusal || error instanceof WriteRefused)
      return fail(io, command, options, 2, error.message, {});
    if (error instanceof NoAnswer) return fail(io, command, options, 3, error.message, { state: error.state });
    throw error;
  }
};
