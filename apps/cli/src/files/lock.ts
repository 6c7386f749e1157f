import {
  closeSync,
  linkSync,
  openSync,
  readFileSync,
  renameSync,
  rmSync,
  rmdirSync,
  statSync,
  writeSync,
} from 'node:fs';
import { hostname } from 'node:os';
import { join } from 'node:path';
import { inert } from '@fayplate/core';
import { STALE, runs, tag, tokenOf } from './swap.js';
import { WriteRefused, makeFolder } from './write.js';

/** The one name of the lock of a folder. It holds the process and the machine that has it. */
const LOCK = '.fayplate.lock';

/** How long another run is waited for, ms: no packet takes so long to write. */
const PATIENCE = 10_000;
const STEP = 50;
/** A lock is made first and written then: so long it may be empty, ms. */
const YOUNG = 2000;

const mine = (): string => `${process.pid.toString(36)} ${tag(hostname())}`;

/** Whether the run that a lock names is over. Throws where the lock is gone meanwhile. */
const isDead = (path: string, content: string): boolean => {
  const [pid = '', host = ''] = content.split(' ');
  const age = Date.now() - statSync(path).mtimeMs;
  if (content === '') return age > YOUNG;
  return host === tag(hostname()) ? !runs(Number.parseInt(pid, 36)) : age > STALE;
};

/** Takes a dead run's lock away; another run may do the same at the same time, and what it then took is its own. */
const takeAway = (path: string, content: string): void => {
  const aside = `${path}-${mine().replace(' ', '-')}`;
  renameSync(path, aside);
  if (readFileSync(aside, 'utf8') === content) rmSync(aside, { force: true });
  else renameSync(aside, path);
};

const write = (path: string): void => {
  const handle = openSync(path, 'wx');
  try {
    writeSync(handle, mine());
  } finally {
    closeSync(handle);
  }
};

const isThere = (error: unknown): boolean => (error as NodeJS.ErrnoException).code === 'EEXIST';

/** Makes the lock, whole at once where the disk gives a file a second name; false where another run has it. */
const make = (folder: string, path: string): boolean => {
  const whole = join(folder, `${tokenOf()}.part`);
  try {
    write(whole);
    linkSync(whole, path);
    return true;
  } catch (error) {
    if (isThere(error)) return false;
  } finally {
    rmSync(whole, { force: true });
  }
  try {
    write(path);
    return true;
  } catch (error) {
    if (isThere(error)) return false;
    throw error;
  }
};

const take = (folder: string, path: string): boolean => {
  if (make(folder, path)) return true;
  try {
    const content = readFileSync(path, 'utf8');
    if (isDead(path, content)) takeAway(path, content);
  } catch {
    // It is gone, or is another's by now: the next turn sees.
  }
  return false;
};

const sleep = (ms: number): void => void Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, ms);

/**
 * Does the work while no other run of Fayplate writes into that folder, which is made where it is not there. Another
 * run is waited for, told of by `waits`, and refused in words where it does not end. Where no lock can be made the work
 * itself meets what hinders it, and says so.
 */
export const lockedIn = <T>(folder: string, work: () => T, waits: () => void = () => undefined): T => {
  const made: string[] = [];
  const path = join(folder, LOCK);
  let held = false;
  const undo = (): void => {
    for (const f of made.toReversed())
      try {
        rmdirSync(f);
      } catch {
        // It holds something by now.
      }
  };
  try {
    makeFolder(folder, (f) => made.push(f));
    for (let waited = 0; !held; waited += STEP) {
      held = take(folder, path);
      if (held) break;
      if (waited === STEP) waits();
      if (waited >= PATIENCE)
        throw new WriteRefused(
          `another run of Fayplate writes into ${inert(folder)}. ` +
            'Nothing was written: run it again when that one has ended.',
        );
      sleep(STEP);
    }
  } catch (error) {
    if (error instanceof WriteRefused) throw error;
    undo();
    return work();
  }
  try {
    return work();
  } catch (error) {
    rmSync(path, { force: true });
    undo();
    throw error;
  } finally {
    rmSync(path, { force: true });
  }
};
