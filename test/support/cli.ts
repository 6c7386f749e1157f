import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { type Io, run } from 'fayplate';

export const root = join(import.meta.dirname, '../..');

export interface Ran {
  readonly code: number;
  readonly out: string;
  readonly err: string;
  readonly files: ReadonlyMap<string, string | Uint8Array>;
}

/** Runs the command line in process on a terminal 100 columns wide; what it writes is kept, not put on disk. */
export const fayplate = async (args: readonly string[], more: Partial<Io> = {}): Promise<Ran> => {
  const out: string[] = [];
  const err: string[] = [];
  const files = new Map<string, string | Uint8Array>();
  const io: Io = {
    out: (t) => void out.push(t),
    err: (t) => void err.push(t),
    read: (path) => readFileSync(join(root, path), 'utf8'),
    write: (path, content) => void files.set(path, content),
    settings: 'settings',
    columns: 100,
    colour: false,
    interactive: false,
    bars: false,
    onStop: () => undefined,
    today: () => '2026-01-31',
    ...more,
  };
  const code = await run(args, io);
  return { code, out: out.join(''), err: err.join(''), files };
};
