import {
  type Stats,
  closeSync,
  fsyncSync,
  mkdirSync,
  openSync,
  readSync,
  readdirSync,
  renameSync,
  rmSync,
  statSync,
  writeSync,
} from 'node:fs';
import { basename, dirname, join } from 'node:path';

export interface WrittenFile {
  readonly path: string;
  readonly content: string | Uint8Array;
}

/** Which files that are there already may be replaced: ours, known by how they begin, or with `force` any. */
export interface Replacing {
  readonly force: boolean;
  readonly isOurs: (head: string) => boolean;
}

/** A refusal to write, in words for a person. */
export class WriteRefused extends Error {}

/** So much of a file tells whose it is (`isOurs`). */
const HEAD = 65_536;

const headOf = (path: string): string => {
  const handle = openSync(path, 'r');
  try {
    const head = Buffer.alloc(HEAD);
    return head.toString('latin1', 0, readSync(handle, head, 0, HEAD, 0));
  } finally {
    closeSync(handle);
  }
};

const words: Readonly<Record<string, string>> = {
  ENOSPC: 'the disk is full',
  EDQUOT: 'the disk quota is used up',
  EROFS: 'the disk can only be read',
  ENOENT: 'no folder can be made there',
  EACCES: 'you have no right to write there',
  EPERM: 'you have no right to write there',
  ENOTDIR: 'part of the path is a file, not a folder',
  EEXIST: 'part of the path is a file, not a folder',
  EISDIR: 'that is a folder',
  ENAMETOOLONG: 'the name is too long',
};

const told = (path: string, error: unknown): WriteRefused => {
  const code = (error as NodeJS.ErrnoException).code ?? '';
  return new WriteRefused(
    `${path} was not written: ${words[code] ?? (error as Error).message}. Nothing that was there has changed.`,
  );
};

const statOf = (path: string): Stats | null => {
  try {
    return statSync(path);
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOENT') return null;
    throw error;
  }
};

const refuseForeign = (path: string, { force, isOurs }: Replacing): void => {
  const there = statOf(path);
  if (there === null) return;
  if (there.isDirectory()) throw new WriteRefused(`${path} is a folder. Give the name of a file in it.`);
  // A pipe or a device, which renaming over it would do away with.
  if (!there.isFile()) throw new WriteRefused(`${path} is no ordinary file. Write to - and send that there.`);
  if (!force && !isOurs(headOf(path)))
    throw new WriteRefused(
      `${path} is there already and Fayplate did not write it, or you have filled it in since. Give another name, or --force to replace it.`,
    );
};

/** With those above it, one by one: Node's own recursive way never ends where the system has no room for a folder (below /proc). */
const makeFolder = (path: string): void => {
  if (statOf(path) !== null) return;
  makeFolder(dirname(path));
  try {
    mkdirSync(path);
  } catch (error) {
    // Another run may have made it meanwhile.
    if ((error as NodeJS.ErrnoException).code !== 'EEXIST') throw error;
  }
};

/** How a file ends that is not whole yet; x stands for anything. */
const ENDING = '.xxxxxxxx.part';

/** Beside its target, whole and on the disk; answers with its name. */
const writeBeside = ({ path, content }: WrittenFile, parts: string[]): string => {
  makeFolder(dirname(path));
  const part = join(
    dirname(path),
    `.${basename(path)}${ENDING.replace(/x+/, Math.random().toString(36).slice(2, 10).padEnd(8, '0'))}`,
  );
  const handle = openSync(part, 'wx');
  parts.push(part);
  try {
    const bytes = typeof content === 'string' ? Buffer.from(content, 'utf8') : content;
    for (let done = 0; done < bytes.length;) done += writeSync(handle, bytes, done);
    fsyncSync(handle);
  } finally {
    closeSync(handle);
  }
  return part;
};

/** No run takes so long over its files, ms. */
const STALE = 3_600_000;

/** Takes away what runs that were killed while they wrote these same files have left beside them, where that can be done. */
const sweep = (paths: readonly string[]): void => {
  const names = new Set(paths.map((p) => basename(p)));
  for (const folder of new Set(paths.map((p) => dirname(p)))) {
    try {
      for (const name of readdirSync(folder)) {
        const left =
          name.startsWith('.') && name.endsWith('.part') && names.has(name.slice(1, -ENDING.length))
            ? join(folder, name)
            : null;
        if (left !== null && Date.now() - (statOf(left)?.mtimeMs ?? Date.now()) > STALE) rmSync(left, { force: true });
      }
    } catch {
      // The files themselves are written; what is left here does no harm.
    }
  }
};

/**
 * Writes each file beside its target and, when all of them are whole, renames them over: a kill at any moment leaves the old file or the new
 * one, never half, and a full disk leaves all as it was. Refuses to replace a file that Fayplate did not write, unless `force`.
 */
export const writeWhole = (files: readonly WrittenFile[], replacing: Replacing): void => {
  const parts: string[] = [];
  let at = '';
  try {
    for (const { path } of files) refuseForeign((at = path), replacing);
    const ready = files.map((file) => {
      at = file.path;
      return [writeBeside(file, parts), at] as const;
    });
    for (const [part, path] of ready) renameSync(part, (at = path));
    sweep(files.map((f) => f.path));
  } catch (error) {
    for (const part of parts) rmSync(part, { force: true });
    throw error instanceof WriteRefused ? error : told(at, error);
  }
};
