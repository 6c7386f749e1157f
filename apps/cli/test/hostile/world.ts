import { type Io, run } from '../../src/index.js';

export interface Went {
  readonly code: number;
  readonly out: string;
  readonly err: string;
  /** Path → what was written there. */
  readonly files: ReadonlyMap<string, string | Uint8Array>;
  /** Processor time, ms: a busy machine does not count. */
  readonly ms: number;
}

/** One command in this process, on files that exist only here. Whatever is not in `files` is not there. */
export const go = async (args: readonly string[], files: Readonly<Record<string, string>>, more: Partial<Io> = {}): Promise<Went> => {
  const out: string[] = [];
  const err: string[] = [];
  const written = new Map<string, string | Uint8Array>();
  const start = process.cpuUsage();
  const code = await run(args, {
    out: (t) => void out.push(t),
    err: (t) => void err.push(t),
    read: (path) => {
      const text = Object.hasOwn(files, path) ? files[path] : undefined;
      if (text === undefined) throw Object.assign(new Error('none'), { code: 'ENOENT' });
      return text;
    },
    write: (path, content) => void written.set(path, content),
    settings: 'settings',
    columns: 100,
    colour: false,
    interactive: false,
    bars: false,
    onStop: () => undefined,
    today: () => '2026-01-31',
    ...more,
  });
  const { user, system } = process.cpuUsage(start);
  return { code, out: out.join(''), err: err.join(''), files: written, ms: (user + system) / 1000 };
};

// What must not reach a terminal: controls but line ends, marks that turn the direction, lone surrogates.
const steering = /[^\P{Cc}\n]|[\p{Cs}\p{Zl}\p{Zp}\p{Bidi_Control}]/u;

/** What is wrong with how a command went, whatever it was given; nothing should be. */
export const wrongWith = ({ code, out, err, files }: Went, folder: string): readonly string[] => [
  ...([0, 1, 2].includes(code) ? [] : [`exit ${code}: ${err}`]),
  ...(code === 2 && err === '' ? ['refused without a word'] : []),
  ...(code === 2 && files.size > 0 ? ['refused, and yet something was written'] : []),
  ...(steering.test(err) ? ['a steering character on standard error'] : []),
  ...(steering.test(out) ? ['a steering character on standard output'] : []),
  // Standard error may quote the file.
  ...(/\bNaN\b|Infinity|undefined|\[object/.test(out) ? [`a number that is none: ${/.*(?:\bNaN\b|Infinity|undefined|\[object).*/.exec(out)?.[0] ?? ''}`] : []),
  ...[...files.keys()].filter((path) => !new RegExp(`^${folder}/[a-z0-9_-]+\\.[a-z]+$`).test(path)).map((path) => `written outside: ${path}`),
];
