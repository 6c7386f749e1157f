import {
  closeSync,
  copyFileSync,
  existsSync,
  fsyncSync,
  linkSync,
  openSync,
  readFileSync,
  readdirSync,
  renameSync,
  rmSync,
  statSync,
  writeSync,
} from 'node:fs';
import { hostname } from 'node:os';
import { join } from 'node:path';

// A set of files is put in place by a journal, folder by folder. Every new file is written whole under a name of our
// own first (`.part`), the journal then says what is to become of each, what is there gets a second name (`.old`), and
// only then are names changed. Where a change fails, all are put back. Where the run is killed, the next one that
// writes into the folder finds the journal and ends the work, or puts all back.

/**
 * One file of a set: what is new (null: it goes), and the name under which what was there is kept (null: it is not).
 */
export interface Change {
  readonly name: string;
  readonly content: string | Uint8Array | null;
  readonly keepAs: string | null;
}

interface Entry {
  readonly name: string;
  /** The new file, beside it; null: the old one goes. */
  readonly part: string | null;
  /** Second name of what was there; null: nothing was. */
  readonly old: string | null;
  readonly keepAs: string | null;
}

/** What belongs to a run: `.fayplate-PID-HOST-RANDOM…`. */
const OURS = /^\.fayplate-([0-9a-z]+)-([0-9a-z]+)-[0-9a-z]+(?:-\d+)?\.(part|old|journal)$/;

/** Short and the same for the same text (FNV-1a, 32 bits, from memory). */
export const tag = (text: string): string =>
  (Buffer.from(text).reduce((h, byte) => Math.imul(h ^ byte, 16_777_619), 2_166_136_261) >>> 0).toString(36);

/** A name of our own for what a run writes first. */
export const tokenOf = (): string =>
  `.fayplate-${process.pid.toString(36)}-${tag(hostname())}-${Math.random().toString(36).slice(2, 10).padEnd(8, '0')}`;

/** No run of another machine on a shared disk takes so long over its files, ms. */
export const STALE = 3_600_000;

/** Whether a process of this machine runs. */
export const runs = (pid: number): boolean => {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return (error as NodeJS.ErrnoException).code === 'EPERM';
  }
};

/** Whether the run that made this file is over. */
const isLeft = (folder: string, [name, pid = '', host]: readonly string[]): boolean => {
  if (host === tag(hostname())) return !runs(Number.parseInt(pid, 36));
  return Date.now() - statSync(join(folder, name ?? '')).mtimeMs > STALE;
};

/** A new file, whole and on the disk. */
const put = (path: string, content: string | Uint8Array): void => {
  const handle = openSync(path, 'wx');
  try {
    const bytes = typeof content === 'string' ? Buffer.from(content, 'utf8') : content;
    for (let done = 0; done < bytes.length;) done += writeSync(handle, bytes, done);
    fsyncSync(handle);
  } finally {
    closeSync(handle);
  }
};

/**
 * A second name for a file; where the disk or its owner allows none, a copy, which has its name only when it is whole.
 */
const doubled = (from: string, to: string): void => {
  try {
    linkSync(from, to);
  } catch {
    copyFileSync(from, `${to}.part`);
    renameSync(`${to}.part`, to);
  }
};

const clear = (folder: string, { part, old }: Entry): void => {
  for (const name of [part, old]) if (name !== null) rmSync(join(folder, name), { force: true });
};

/** Changes the names: the moment from which there are new files. */
const change = (folder: string, { name, part }: Entry): void => {
  if (part === null) rmSync(join(folder, name), { force: true });
  else if (existsSync(join(folder, part))) renameSync(join(folder, part), join(folder, name));
};

/** All as it was, as far as the disk lets it. */
const putBack = (folder: string, entries: readonly Entry[]): void => {
  for (const e of entries) {
    const done = e.part === null ? !existsSync(join(folder, e.name)) : !existsSync(join(folder, e.part));
    if (done && e.old === null) rmSync(join(folder, e.name), { force: true });
    else if (done && existsSync(join(folder, e.old ?? ''))) renameSync(join(folder, e.old ?? ''), join(folder, e.name));
    clear(folder, e);
  }
};

const keepAside = (folder: string, { old, keepAs }: Entry): void => {
  if (old !== null && keepAs !== null && existsSync(join(folder, old)))
    renameSync(join(folder, old), join(folder, keepAs));
};

const isEntry = (e: unknown): e is Entry => {
  const { name, part, old, keepAs } = e as Partial<Entry>;
  const plain = (n: unknown): boolean =>
    typeof n === 'string' && n !== '' && !/[\\/\0]/.test(n) && n !== '..' && n !== '.';
  return plain(name) && plain(keepAs ?? 'x') && [part, old].every((n) => n === null || OURS.test(String(n)));
};

const entriesIn = (text: string): readonly Entry[] | null => {
  try {
    const { entries } = JSON.parse(text) as { entries?: readonly unknown[] };
    return Array.isArray(entries) && entries.every(isEntry) ? entries : null;
  } catch {
    return null;
  }
};

const finish = (folder: string, entries: readonly Entry[]): void => {
  try {
    for (const e of entries) change(folder, e);
  } catch {
    putBack(folder, entries);
    return;
  }
  for (const e of entries) {
    keepAside(folder, e);
    clear(folder, e);
  }
};

/** Ends, or puts back, what killed runs have left in a folder, and takes away their unfinished files. */
export const recover = (folder: string): void => {
  let left: (readonly string[])[] = [];
  try {
    left = readdirSync(folder).flatMap((name) => {
      const m = OURS.exec(name.replace(/\.old\.part$/, '.part'));
      return m !== null && isLeft(folder, [name, m[1] ?? '', m[2] ?? '', m[3] ?? '']) ? [[name, m[3] ?? '']] : [];
    });
  } catch {
    // A folder that cannot be listed, or a file that another run took away meanwhile: the next run tries again.
    return;
  }
  for (const [name = '', kind] of left.toSorted(([, a], [, b]) => Number(b === 'journal') - Number(a === 'journal'))) {
    try {
      const path = join(folder, name);
      if (kind === 'journal' && existsSync(path)) {
        const entries = entriesIn(readFileSync(path, 'utf8'));
        if (entries !== null) finish(folder, entries);
      }
      rmSync(path, { force: true });
    } catch {
      // What cannot be taken away does no harm to what is written.
    }
  }
};

/** What is staged in one folder, to be swapped in or taken away. */
export interface Staged {
  readonly swap: () => void;
  readonly putBack: () => void;
  readonly done: () => void;
}

/**
 * Writes the new files of one folder under names of our own. Throws the file system's error, with nothing left behind.
 */
export const stage = (folder: string, changes: readonly Change[], at: (name: string) => void): Staged => {
  const token = tokenOf();
  const entries: Entry[] = [];
  const journal = join(folder, `${token}.journal`);
  const undo = (): void => {
    putBack(folder, entries);
    rmSync(join(folder, `${token}-${changes.length}.part`), { force: true });
    rmSync(journal, { force: true });
  };
  try {
    for (const [i, { name, content, keepAs }] of changes.entries()) {
      at(name);
      const entry: Entry = {
        name,
        part: content === null ? null : `${token}-${i}.part`,
        old: existsSync(join(folder, name)) ? `${token}-${i}.old` : null,
        keepAs,
      };
      if (content !== null && entry.part !== null) put(join(folder, entry.part), content);
      entries.push(entry);
    }
    for (const { name, old } of entries) {
      at(name);
      if (old !== null) doubled(join(folder, name), join(folder, old));
    }
  } catch (error) {
    for (const [i] of changes.entries()) rmSync(join(folder, `${token}-${i}.part`), { force: true });
    for (const e of entries) clear(folder, e);
    throw error;
  }
  return {
    swap: () => {
      const part = `${token}-${changes.length}.part`;
      put(join(folder, part), JSON.stringify({ fayplate: 1, entries }));
      renameSync(join(folder, part), journal);
      for (const e of entries) {
        at(e.name);
        change(folder, e);
      }
    },
    putBack: undo,
    done: () => {
      for (const e of entries) {
        keepAside(folder, e);
        clear(folder, e);
      }
      rmSync(journal, { force: true });
    },
  };
};
