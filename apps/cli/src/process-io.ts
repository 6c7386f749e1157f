import { readFileSync } from 'node:fs';
import { homedir } from 'node:os';
import { join } from 'node:path';
import { once } from '@fayplate/core';
import { isOurs } from '@fayplate/study';
import type { Io } from './io.js';
import { packetPlan } from './files/packet.js';
import { recover } from './files/swap.js';
import { writeWhole } from './files/write.js';
import { wantsColour } from './terminal/colour.js';

/** A pipe that is closed early (`| head`) ends the program quietly, with the status that it has come to. */
const quietPipe = (error: NodeJS.ErrnoException): void => {
  if (error.code === 'EPIPE') process.exit();
  throw error;
};

/** The real terminal and disk. */
export const processIo = (): Io => {
  const out = once(() => process.stdout.on('error', quietPipe));
  // Opened only when something is said on it: Node is slow to open a pipe or a terminal, and most answers need one only.
  const err = once(() => process.stderr.on('error', quietPipe));
  const { COLUMNS: columns, FAYPLATE_SETTINGS: settings, XDG_CONFIG_HOME: config } = process.env;
  return {
    out: (content) => void out().write(content),
    err: (text) => void err().write(text),
    read: (path) => readFileSync(path === '-' ? 0 : path, 'utf8'),
    write: (files, force) => {
      writeWhole(
        files.filter((f) => f.path !== '-'),
        { force, isOurs },
      );
      for (const { path, content } of files) if (path === '-') out().write(content);
    },
    writePacket: (folder, files, force) => {
      recover(folder);
      const { files: planned, removed, kept } = packetPlan(folder, files, isOurs);
      writeWhole(planned, { force, isOurs });
      return { removed, kept };
    },
    // Set to nothing is not set (XDG Base Directory Specification).
    settings: settings || join(config || join(homedir(), '.config'), 'fayplate'),
    // Asked anew each time: a window may be drawn wider while it is watched.
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
