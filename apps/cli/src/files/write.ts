import { closeSync, existsSync, fsyncSync, mkdirSync, openSync, readFileSync, renameSync, rmSync, writeSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';

export type Bytes = string | Uint8Array;

/** A refusal to write, in words for a person. */
export class WriteRefused extends Error {}

/**
 * Every file that Fayplate writes carries its name as text; in PDF as its producer, which stands there in UTF-16 as hexadecimal.
 * A table of comma separated values has no room for it and is known by its headings.
 */
const mark = /fayplate|0046006100790070006C006100740065|^n,side,hole,op,tool,/i;

/** Whether an existing file is one of ours, and so may be replaced. */
const ours = (path: string): boolean => mark.test(readFileSync(path, 'latin1'));

const words: Readonly<Record<string, string>> = {
  ENOSPC: 'the disk is full',
  EDQUOT: 'the disk quota is used up',
  EROFS: 'the disk can only be read',
  EACCES: 'you have no right to write there',
  EPERM: 'you have no right to write there',
  ENOTDIR: 'part of the path is a file, not a folder',
  EEXIST: 'part of the path is a file, not a folder',
  EISDIR: 'that is a folder',
  ENAMETOOLONG: 'the name is too long',
};

const told = (path: string, error: unknown): WriteRefused => {
  const code = (error as NodeJS.ErrnoException).code ?? '';
  return new WriteRefused(`${path} was not written: ${words[code] ?? (error as Error).message}. Nothing that was there has changed.`);
};

/**
 * Writes beside the target and renames over it, so that a kill at any moment leaves the old file or the new one, never half.
 * Refuses to replace a file that Fayplate did not write, unless `force`.
 */
export const writeWhole = (path: string, content: Bytes, force: boolean): void => {
  let beside: string | null = null;
  try {
    if (existsSync(path) && !force && !ours(path)) {
      throw new WriteRefused(`${path} is there already and Fayplate did not write it. Give another name, or --force to replace it.`);
    }
    mkdirSync(dirname(path), { recursive: true });
    const part = join(dirname(path), `.${basename(path)}.${Math.random().toString(36).slice(2, 10)}.part`);
    const handle = openSync(part, 'wx');
    beside = part;
    try {
      const bytes = typeof content === 'string' ? Buffer.from(content, 'utf8') : content;
      for (let done = 0; done < bytes.length; ) done += writeSync(handle, bytes, done);
      fsyncSync(handle);
    } finally {
      closeSync(handle);
    }
    renameSync(part, path);
  } catch (error) {
    if (beside !== null) rmSync(beside, { force: true });
    throw error instanceof WriteRefused ? error : told(path, error);
  }
};
