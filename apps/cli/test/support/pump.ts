import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Io } from '../../src/index.js';
import { type Went, go } from './go.js';

export const root = join(import.meta.dirname, '../../../..');
export const pump = readFileSync(join(root, 'examples/lift-pump/job.yaml'), 'utf8');

/** One command on the example, or on another text in its place, called job.yaml. */
export const onPump = async (args: readonly string[], job = pump, more: Partial<Io> = {}): Promise<Went> =>
  await go(args, { 'job.yaml': job, '-': job }, more);

/** One command on the files of this repository. */
export const onRoot = async (args: readonly string[], more: Partial<Io> = {}): Promise<Went> =>
  await go(args, {}, { read: (path) => readFileSync(join(root, path), 'utf8'), ...more });

/** The example with one line changed; the change is seen to take place. */
export const changed = (from: string | RegExp, to: string): string => {
  const job = pump.replace(from, to);
  if (job === pump) throw new Error(`nothing changed: ${String(from)}`);
  return job;
};
