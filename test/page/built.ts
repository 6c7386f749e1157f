import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

const program = join(import.meta.dirname, '../../apps/cli/bin/fayplate.js');

export interface Ran {
  readonly status: number;
  readonly out: string;
  readonly files: Readonly<Record<string, Uint8Array>>;
}

const run = (folder: string, args: readonly string[]): { readonly status: number; readonly out: string } => {
  const { status, stdout, stderr } = spawnSync(process.execPath, [program, ...args], {
    cwd: folder,
    encoding: 'utf8',
    maxBuffer: 1 << 28,
  });
  if (status === null || status === 3) throw new Error(`${args.join(' ')} ended with ${status}: ${stderr}`);
  return { status, out: stdout };
};

/**
 * The built command line on a job, with every file that it wrote beside it; `others`: files that lie there before, such
 * as an earlier job.
 */
export const builtFiles = (
  text: string,
  command: string,
  flags: readonly string[],
  others: Readonly<Record<string, string>> = {},
): Ran => {
  const folder = mkdtempSync(join(tmpdir(), 'fayplate-built-'));
  try {
    for (const [name, content] of Object.entries({ 'job.yaml': text, ...others }))
      writeFileSync(join(folder, name), content);
    const ran = run(folder, [command, 'job.yaml', ...flags]);
    const names = readdirSync(folder).filter((n) => n !== 'job.yaml' && !Object.hasOwn(others, n));
    return {
      ...ran,
      files: Object.fromEntries(names.map((n) => [n, new Uint8Array(readFileSync(join(folder, n)))])),
    };
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
};

/** The built command line on a job, as a person runs it; `packet` writes into a folder of its own. */
export const built = (text: string, command: string, flags: readonly string[] = []): Ran => {
  const folder = mkdtempSync(join(tmpdir(), 'fayplate-built-'));
  try {
    writeFileSync(join(folder, 'job.yaml'), text);
    const out = command === 'packet' ? ['--out', 'packet'] : [];
    const ran = run(folder, [command, 'job.yaml', ...out, ...flags]);
    // `packet.json` is the folder's own list of what was written into it; a .zip needs none.
    const names =
      command === 'packet' && existsSync(join(folder, 'packet'))
        ? readdirSync(join(folder, 'packet')).filter((n) => n !== 'packet.json')
        : [];
    return {
      ...ran,
      files: Object.fromEntries(names.map((n) => [n, new Uint8Array(readFileSync(join(folder, 'packet', n)))])),
    };
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
};
