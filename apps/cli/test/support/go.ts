import { type Io, run } from '../../src/index.js';

export interface Went {
  readonly code: number;
  readonly out: string;
  readonly err: string;
  /** Path → what was written there; `-` is standard output. */
  readonly files: ReadonlyMap<string, string | Uint8Array>;
  /** Processor time, ms: a busy machine does not count. */
  readonly ms: number;
}

/**
 * One command in this process, a hundred columns wide, on files that exist only here: whatever is not in `files` is not
 * there, and what it writes is kept.
 */
export const go = async (
  args: readonly string[],
  files: Readonly<Record<string, string>>,
  more: Partial<Io> = {},
): Promise<Went> => {
  const out: string[] = [];
  const err: string[] = [];
  const kept = new Map<string, string | Uint8Array>();
  const start = process.cpuUsage();
  const code = await run(args, {
    out: (t) => void out.push(String(t)),
    err: (t) => void err.push(t),
    read: (path) => {
      const text = Object.hasOwn(files, path) ? files[path] : undefined;
      if (text === undefined) throw Object.assign(new Error('none'), { code: 'ENOENT' });
      return text;
    },
    write: (written) => {
      for (const { path, content } of written) kept.set(path, content);
    },
    writePacket: (folder, written) => {
      for (const { name, content } of written) kept.set(`${folder}/${name}`, content);
      return { removed: [], kept: [] };
    },
    settings: 'settings',
    columns: 100,
    colour: false,
    interactive: false,
    bars: false,
    ask: () => Promise.resolve(null),
    onStop: () => undefined,
    today: () => '2026-01-31',
    ...more,
  });
  const { user, system } = process.cpuUsage(start);
  return { code, out: out.join(''), err: err.join(''), files: kept, ms: (user + system) / 1000 };
};
