import { closeSync, openSync, readSync, statSync } from 'node:fs';

/** More than any file that is read may hold: the reader of jobs refuses from 1 MiB on, by line and column. */
const MOST = 1_048_576;

/** A file that is not read, by a code as the file system's errors have one. */
export class Unread extends Error {
  readonly code: 'NOT_PLAIN' | 'TOO_LARGE';
  constructor(code: 'NOT_PLAIN' | 'TOO_LARGE') {
    super(code);
    this.code = code;
  }
}

/** Text of an open file, to its end; never more than the most and one byte. */
const readAll = (handle: number): string => {
  const parts: Buffer[] = [];
  let bytes = 0;
  while (bytes <= MOST) {
    const part = Buffer.alloc(65_536);
    let n = 0;
    try {
      n = readSync(handle, part, 0, part.length, null);
    } catch (error) {
      const { code } = error as NodeJS.ErrnoException;
      // A terminal or a pipe that is slow has nothing yet; one that has ended says so on some systems by a fault.
      if (code === 'EAGAIN') continue;
      if (code === 'EOF') break;
      throw error;
    }
    if (n === 0) break;
    parts.push(part.subarray(0, n));
    bytes += n;
  }
  if (bytes > MOST) throw new Unread('TOO_LARGE');
  return Buffer.concat(parts).toString('utf8');
};

/**
 * Text of a plain file, or of standard input for `-`. Its kind and size are looked at before it is opened: a pipe would
 * be waited for without end, a device never ends. Throws the file system's error, or `Unread`.
 */
export const readPlain = (path: string): string => {
  if (path === '-') return readAll(0);
  const there = statSync(path);
  if (there.isDirectory()) throw Object.assign(new Error('a folder'), { code: 'EISDIR' });
  if (!there.isFile()) throw new Unread('NOT_PLAIN');
  if (there.size > MOST) throw new Unread('TOO_LARGE');
  const handle = openSync(path, 'r');
  try {
    return readAll(handle);
  } finally {
    closeSync(handle);
  }
};
