import type { Io } from '../io.js';

/** A bar on standard error while long work runs; nothing where that is not a terminal or quiet was asked for. */
export const progressBar = (io: Io, quiet: boolean): ((done: number, of: number) => void) => {
  if (quiet || !io.bars) return () => undefined;
  let shown = -1;
  return (done, of) => {
    const share = Math.floor((40 * done) / of);
    if (share === shown) return;
    shown = share;
    io.err(`\r[${'='.repeat(share)}${' '.repeat(40 - share)}] ${Math.round((100 * done) / of)} %`);
    if (done >= of) io.err(`\r${' '.repeat(50)}\r`);
  };
};
