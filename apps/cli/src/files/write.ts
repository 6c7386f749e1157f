import { type Stats, closeSync, mkdirSync, openSync, readSync, rmdirSync, statSync } from 'node:fs';
import { basename, dirname, join, resolve } from 'node:path';
import { inert } from '@fayplate/core';
import { type Change, type Staged, recover, stage } from './swap.js';

export interface WrittenFile {
  readonly path: string;
  /** Null: what is there goes. */
  readonly content: string | Uint8Array | null;
  /** The name, in the same folder, under which what was there is kept. */
  readonly keepAs?: string;
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

export const headOf = (path: string): string => {
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
  EFBIG: 'the file is larger than the system lets one be',
  EDQUOT: 'the disk quota is used up',
  EROFS: 'the disk can only be read',
  ENOENT: 'no folder can be made there',
  EACCES: 'you may not write there',
  EPERM: 'you may not write there',
  EBUSY: 'something else holds that file',
  ENOTDIR: 'part of the path is a file, not a folder',
  EEXIST: 'part of the path is a file, not a folder',
  EISDIR: 'that is a folder',
  ENAMETOOLONG: 'the name is too long',
  ELOOP: 'its links form a loop',
};

const told = (path: string, error: unknown): WriteRefused => {
  const code = (error as NodeJS.ErrnoException).code ?? '';
  return new WriteRefused(
    `${inert(path)} was not written: ${words[code] ?? (error as Error).message}. Nothing that was there has changed.`,
  );
};

export const statOf = (path: string): Stats | null => {
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
  if (there.isDirectory()) throw new WriteRefused(`${inert(path)} is a folder. Give the name of a file in it.`);
  // A pipe or a device, which renaming over it would do away with.
  if (!there.isFile())
    throw new WriteRefused(`${inert(path)} is not an ordinary file. Write to - and redirect the output.`);
  if (!force && !isOurs(headOf(path)))
    throw new WriteRefused(
      `${inert(path)} is there already and Fayplate did not write it, or you have filled it in since. Give another ` +
        'name, or --force to replace it.',
    );
};

/** Two outputs under one name, or under two names of one file, would leave only the second. */
const refuseTwice = (files: readonly WrittenFile[]): void => {
  const taken = new Map<string, string>();
  for (const { path } of files) {
    const there = statOf(path);
    const names = [resolve(path), ...(there === null ? [] : [`${there.dev}:${there.ino}`])];
    const before = names.map((n) => taken.get(n)).find((n) => n !== undefined);
    if (before !== undefined)
      throw new WriteRefused(
        before === path
          ? `two outputs would go to ${inert(path)}. Give each its own name.`
          : `${inert(before)} and ${inert(path)} are the same file. Give each output its own name.`,
      );
    for (const n of names) taken.set(n, path);
  }
};

/**
 * With those above it, one by one, told to `made`: Node's own recursive way never ends where the system has no room for
 * a folder (below /proc).
 */
export const makeFolder = (path: string, made: (path: string) => void): void => {
  if (statOf(path) !== null) return;
  makeFolder(dirname(path), made);
  try {
    mkdirSync(path);
    made(path);
  } catch (error) {
    // Another run may have made it meanwhile.
    if ((error as NodeJS.ErrnoException).code !== 'EEXIST') throw error;
  }
};

const quietly = (work: () => void): boolean => {
  try {
    work();
    return true;
  } catch {
    return false;
  }
};

/**
 * Writes all of the files or none: a kill at any moment leaves each whole, old or new, and the next run that writes
 * there ends what was begun; a full disk or a file that may not be changed leaves all as it was. Refuses to replace a
 * file that Fayplate did not write, unless `force`.
 */
export const writeWhole = (files: readonly WrittenFile[], replacing: Replacing): void => {
  let at = '';
  const folders = new Map<string, Change[]>();
  const made: string[] = [];
  const staged: Staged[] = [];
  try {
    for (const { path, content, keepAs = null } of files) {
      const change = { name: basename(path), content, keepAs };
      folders.set(dirname(path), [...(folders.get(dirname(path)) ?? []), change]);
    }
    for (const folder of folders.keys()) recover(folder);
    for (const { path, keepAs } of files) if (keepAs === undefined) refuseForeign((at = path), replacing);
    refuseTwice(files);
    for (const [folder, changes] of folders) {
      at = join(folder, changes[0]?.name ?? '');
      makeFolder(folder, (path) => made.push(path));
      staged.push(stage(folder, changes, (name) => (at = join(folder, name))));
    }
    for (const s of staged) s.swap();
  } catch (error) {
    const whole = staged.toReversed().map((s) => quietly(s.putBack));
    for (const folder of made.toReversed()) quietly(() => rmdirSync(folder));
    if (error instanceof WriteRefused) throw error;
    if (whole.includes(false))
      throw new WriteRefused(
        `${inert(at)} was not written, and not all earlier changes could be undone. The next run that writes there ` +
          'finishes the job.',
      );
    throw told(at, error);
  }
  // All is written; what cannot be taken away now, the next run takes.
  for (const s of staged) quietly(s.done);
};
