import { writeSync } from 'node:fs';
import { userInfo } from 'node:os';
import { isAbsolute, join } from 'node:path';
import { inert, once } from '@fayplate/core';
import { Refusal, isOurs } from '@fayplate/study';
import type { Io } from './io.js';
import { lockedIn } from './files/lock.js';
import { type PacketPlan, packetPlan } from './files/packet.js';
import { readPlain } from './files/read.js';
import { recover } from './files/swap.js';
import { writeWhole } from './files/write.js';
import { wantsColour } from './terminal/table.js';

const causes: Readonly<Record<string, string>> = {
  ENOSPC: 'the disk is full',
  EDQUOT: 'the disk quota is used up',
  EFBIG: 'it is larger than the system lets a file be',
};

/**
 * A pipe that is closed early (`| head`) ends the program quietly, with the status that it has come to. Anything else
 * that keeps words from where they go is told on standard error, where that is not the one at fault; exit status 2.
 */
const unsaid =
  (onError: boolean) =>
  (error: NodeJS.ErrnoException): void => {
    if (error.code === 'EPIPE') process.exit();
    if (!onError) {
      const words = `fayplate: the answer could not be written: ${causes[error.code ?? ''] ?? error.message}\n`;
      try {
        writeSync(2, words);
      } catch {
        // Then nobody can be told.
      }
    }
    process.exit(2);
  };

/**
 * A folder in which what lasts between jobs is kept. Set to nothing, or to no full path, is not set (XDG Base Directory
 * Specification).
 */
const settingsFolder = (env: NodeJS.ProcessEnv): string => {
  const { FAYPLATE_SETTINGS: settings, XDG_CONFIG_HOME: config, HOME: home } = env;
  if (settings !== undefined && settings !== '') {
    if (isAbsolute(settings)) return settings;
    throw new Refusal(`FAYPLATE_SETTINGS is ${inert(settings)}: it takes a full path, such as /home/me/fayplate`);
  }
  if (config !== undefined && isAbsolute(config)) return join(config, 'fayplate');
  try {
    const own = home !== undefined && isAbsolute(home) ? home : userInfo().homedir;
    if (isAbsolute(own)) return join(own, '.config', 'fayplate');
  } catch {
    // No account: said below.
  }
  throw new Refusal(
    'there is no home folder to save a printer’s scale in: set FAYPLATE_SETTINGS to the full path of a folder',
  );
};

/** The real terminal and disk. */
export const processIo = (): Io => {
  const out = once(() => process.stdout.on('error', unsaid(false)));
  // Opened only when something is said on it: Node is slow to open a pipe or a terminal, and most answers need one
  // only.
  const err = once(() => process.stderr.on('error', unsaid(true)));
  const { COLUMNS: columns } = process.env;
  return {
    out: (content) => void out().write(content),
    err: (text) => void err().write(text),
    read: readPlain,
    write: (files, force) => {
      writeWhole(
        files.filter((f) => f.path !== '-'),
        { force, isOurs },
      );
      for (const { path, content } of files) if (path === '-') out().write(content);
    },
    writePacket: (folder, files, force) => {
      // What the folder holds is read and changed by one run at a time: else the second would not know the first's
      // files.
      const write = (): { readonly removed: readonly string[]; readonly kept: PacketPlan['kept'] } => {
        recover(folder);
        const { files: planned, removed, kept } = packetPlan(folder, files, isOurs);
        writeWhole(planned, { force, isOurs });
        return { removed, kept };
      };
      return lockedIn(folder, write, () =>
        err().write(`Another run writes into ${inert(folder)}: waiting until it has ended.\n`),
      );
    },
    get settings() {
      return settingsFolder(process.env);
    },
    // Asked again each time: a window may be drawn wider while it is watched.
    get columns() {
      return Math.max(40, process.stdout.columns ?? (Number(columns) || 100));
    },
    colour: wantsColour(process.stdout.isTTY, process.env),
    // Asked only when wanted: looking at standard input opens a stream for it, which takes longer than many an answer.
    get interactive() {
      return process.stdout.isTTY && process.stdin.isTTY;
    },
    get bars() {
      return process.stderr.isTTY;
    },
    ask: async (question) => (await import('./terminal/ask.js')).ask(question),
    onStop: (stop) => {
      for (const signal of ['SIGINT', 'SIGTERM'] as const) process.once(signal, stop);
    },
    today: () => new Date().toISOString().slice(0, 10),
  };
};
