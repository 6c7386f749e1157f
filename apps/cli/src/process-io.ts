import { readFileSync } from 'node:fs';
import { homedir } from 'node:os';
import { join } from 'node:path';
import { isatty } from 'node:tty';
import type { Io } from './io.js';
import { writeWhole } from './files/write.js';
import { ask } from './terminal/ask.js';
import { wantsColour } from './terminal/colour.js';

/** A pipe that is closed early (`| head`) ends the program quietly, with the status that it has come to. */
const quietPipe = (error: NodeJS.ErrnoException): void => {
  if (error.code === 'EPIPE') process.exit();
  throw error;
};

/** The real terminal and disk. */
export const processIo = (): Io => {
  process.stdout.on('error', quietPipe);
  process.stderr.on('error', quietPipe);
  const { COLUMNS: columns, FAYPLATE_SETTINGS: settings, XDG_CONFIG_HOME: config } = process.env;
  return {
    out: (content) => void process.stdout.write(content),
    err: (text) => void process.stderr.write(text),
    read: (path) => readFileSync(path === '-' ? 0 : path, 'utf8'),
    write: (files, force) => {
      writeWhole(files.filter((f) => f.path !== '-'), force);
      for (const { path, content } of files) if (path === '-') process.stdout.write(content);
    },
    // Set to nothing is not set (XDG Base Directory Specification).
    settings: settings || join(config || join(homedir(), '.config'), 'fayplate'),
    // Asked anew each time: a window may be drawn wider while it is watched.
    get columns() {
      return Math.max(40, process.stdout.columns ?? (Number(columns) || 100));
    },
    colour: wantsColour(process.stdout.isTTY, process.env),
    // Not process.stdin.isTTY: that opens a stream for it, which takes longer than many an answer.
    interactive: isatty(0) && isatty(1),
    bars: isatty(2),
    ask,
    onStop: (stop) => {
      for (const signal of ['SIGINT', 'SIGTERM'] as const) process.once(signal, stop);
    },
    today: () => new Date().toISOString().slice(0, 10),
  };
};
