import { dirname, isAbsolute, join } from 'node:path';
import { inert } from '@fayplate/core';
import { faultLines } from '@fayplate/job';
import { type Answer, type JobCommand, Refusal, type World, answer } from '@fayplate/study';
import { loadLettering } from './files/fonts.js';
import { keptPrinter } from './files/profiles.js';
import { Unread } from './files/read.js';
import { WriteRefused } from './files/write.js';
import type { Io } from './io.js';
import type { CommonOptions } from './options.js';
import { progressBar } from './terminal/progress.js';
import { terminalText } from './terminal/report.js';

const unread: Readonly<Record<string, string>> = {
  ENOENT: 'is not there: no such file',
  EISDIR: 'is a folder: name the job file in it',
  EACCES: 'cannot be read: you may not read it',
  ENAMETOOLONG: 'cannot be read: the name is too long',
  ELOOP: 'cannot be read: its links form a loop',
  ENOTDIR: 'is not there: part of the path is a file, not a folder',
  NOT_PLAIN: 'is no ordinary file: name one, or give - and send it to standard input',
  TOO_LARGE: 'is larger than 1 MiB, the most that a file of a job may hold; it was not read',
};

/**
 * Where the readings of a job may come from beside it: a file in its own folder or below, never above. Refuses in words
 * what is there and no list.
 */
const besideJob =
  (io: Io, jobPath: string) =>
  (name: string): string | null => {
    if (isAbsolute(name) || name.split(/[\\/]/).includes('..')) return null;
    const path = join(jobPath === '-' ? '.' : dirname(jobPath), name);
    try {
      return io.read(path);
    } catch (error) {
      if (error instanceof Unread) throw new Refusal(`${inert(path)} ${unread[error.code] ?? ''}`);
      return null;
    }
  };

/** The text of a job file; refuses in words what cannot be read. */
export const readText = (io: Io, path: string): string => {
  try {
    return io.read(path);
  } catch (error) {
    const code = (error as NodeJS.ErrnoException).code ?? 'unknown fault';
    const name = path === '-' ? 'standard input' : inert(path);
    throw new Refusal(
      Object.hasOwn(unread, code) ? `${name} ${unread[code] ?? ''}` : `${name} cannot be read (${code})`,
    );
  }
};

const printJson = (io: Io, value: unknown): void => io.out(`${JSON.stringify(value, null, 2)}\n`);

/** A message may be of several lines, and may quote what somebody wrote. */
export const told = (message: string): string => message.split('\n').map(inert).join('\n');

/** The world as a study takes it: the fonts, the sheets and a job's neighbours, each opened when it is wanted. */
const worldOf = (io: Io, path: string, quiet: boolean): World => ({
  lettering: loadLettering,
  sheets: async () => (await import('@fayplate/print')).sheets,
  press: async () => (await import('./press/beside.js')).choosePress(),
  beside: besideJob(io, path),
  printer: keptPrinter(io),
  progress: progressBar(io, quiet),
});

const marked = (words: readonly string[]): string => words.map((w) => `Warning: ${w}\n`).join('');

/**
 * What an answer says, on the screen: faults, warnings, and the words or the document or the file that was asked for.
 */
const show = (io: Io, command: JobCommand, path: string, text: string, options: CommonOptions, found: Answer): void => {
  const piped = found.files.some((f) => f.name === '-');
  if (found.faults.length > 0) {
    if (options.json === true) printJson(io, found.json);
    const count = found.faults.length === 1 ? 'one fault' : `${found.faults.length} faults`;
    io.err(`${faultLines(text, found.faults).join('\n')}\n${inert(path)}: ${count}; nothing was worked out.\n`);
    return;
  }
  if (options.quiet !== true) {
    const unlikely = faultLines(text, found.unlikely);
    if (unlikely.length + found.warnings.length > 0) io.err(marked([...unlikely, ...found.warnings.map(told)]));
  }
  if (found.error !== null) {
    if (options.json === true) printJson(io, found.json);
    io.err(`fayplate ${command}: ${told(found.error)}\n`);
  } else if (options.json === true) printJson(io, found.json);
  else if (found.instead !== null) io.out(found.instead);
  else
    (piped ? io.err : io.out)(
      terminalText(options.verbose === true ? [...found.report, ...found.more()] : found.report, io),
    );
};

/** Writes what was made; of a packet, what became of the files of the one before is added to the answer. */
const written = (io: Io, command: JobCommand, { out = '', force = false }: CommonOptions, found: Answer): Answer => {
  if (found.files.length === 0) return found;
  if (command !== 'packet') {
    io.write(
      found.files.map(({ name, content }) => ({ path: name, content })),
      force,
    );
    return found;
  }
  const { removed, kept } = io.writePacket(out, found.files, force);
  const words = [
    ...(removed.length === 0 ? [] : [`The packet no longer has ${removed.join(', ')}: removed from ${inert(out)}.`]),
    ...kept.map(({ name, as }) => `${name} was changed since Fayplate wrote it; your version is kept as ${as}.`),
  ];
  return { ...found, json: { ...found.json, removed, kept }, warnings: [...found.warnings, ...words] };
};

/** Runs one command on one job file and answers with the exit status (0, 1, 2 or 3). */
export const runJob = async (command: JobCommand, path: string, options: CommonOptions, io: Io): Promise<number> => {
  try {
    // A file on standard output stands there alone: words go to standard error.
    if (options.json === true && [options.out, options.picture, options.step].includes('-'))
      throw new Refusal('--json and a file written to - both want standard output: give the file a name');
    const text = readText(io, path);
    const earlier = options.with === undefined ? {} : { earlier: readText(io, options.with) };
    const found = await answer(text, command, { ...options, ...earlier }, worldOf(io, path, options.quiet === true));
    if (found.thrown !== undefined) throw found.thrown;
    show(io, command, path, text, options, written(io, command, options, found));
    return found.exit;
  } catch (error) {
    if (!(error instanceof Refusal || error instanceof WriteRefused)) throw error;
    if (options.json === true) printJson(io, { fayplate: 1, job: null, command, error: error.message });
    io.err(`fayplate ${command}: ${told(error.message)}\n`);
    return 2;
  }
};
