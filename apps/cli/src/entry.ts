import { processIo } from './process-io.js';
import { run } from './main.js';

/** The program: `argv` without node and the script. */
export const main = async (argv: readonly string[]): Promise<void> => {
  process.exitCode = await run(argv, processIo());
};
