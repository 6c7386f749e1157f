import { createInterface } from 'node:readline/promises';

/** Asks on standard error, so that answers on standard output stay whole; null where Ctrl-C or Ctrl-D ends it. */
export const ask = async (question: string): Promise<string | null> => {
  const lines = createInterface({ input: process.stdin, output: process.stderr });
  try {
    return await lines.question(question);
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== 'ABORT_ERR') throw error;
    process.stderr.write('\n');
    return null;
  } finally {
    lines.close();
  }
};
