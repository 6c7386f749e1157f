import type { Progress } from '@fayplate/study';
import type { Io } from '../io.js';

/** Shorter work needs no bar, ms. */
const SOON = 500;
const WIDTH = 40;

/**
 * A bar on standard error while long work runs, one piece of work after another; nothing where that is not a terminal
 * or quiet was asked for.
 */
export const progressBar = (io: Io, quiet: boolean, now: () => number = () => performance.now()): Progress => {
  if (quiet) return () => undefined;
  let begun: number | null = null;
  let shown: number | null = null;
  return (done, of) => {
    begun ??= now();
    if (done >= of) {
      if (shown !== null) io.err(`\r${' '.repeat(WIDTH + 10)}\r`);
      [begun, shown] = [null, null];
      return;
    }
    const share = Math.floor((WIDTH * done) / of);
    if (share === shown || now() - begun < SOON || !io.bars) return;
    shown = share;
    io.err(`\r[${'='.repeat(share)}${' '.repeat(WIDTH - share)}] ${Math.round((100 * done) / of)} %`);
  };
};
