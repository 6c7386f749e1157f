import { spawn } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { hostname, tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { lockedIn } from '../../src/files/lock.js';
import { tag } from '../../src/files/swap.js';

let home = '';
let folder = '';
beforeEach(() => {
  home = mkdtempSync(join(tmpdir(), 'fayplate-lock-'));
  folder = join(home, 'deep/packet');
});
afterEach(() => rmSync(home, { recursive: true, force: true }));

const lock = (): string => join(folder, '.fayplate.lock');

describe('one run at a time in a packet’s folder', () => {
  test('the folder is made, the lock stands while the work is done, and nothing of it stays', () => {
    expect(lockedIn(folder, () => [existsSync(lock()), readdirSync(folder).length])).toEqual([true, 1]);
    expect(readdirSync(folder)).toEqual([]);
  });

  test('work that fails leaves neither lock nor folder', () => {
    expect(() =>
      lockedIn(folder, () => {
        throw new Error('no');
      }),
    ).toThrow('no');
    expect(readdirSync(home)).toEqual([]);
  });

  test('a lock of a process that is over is taken', () => {
    lockedIn(folder, () => undefined);
    writeFileSync(lock(), `${(2 ** 22 + 7).toString(36)} ${tag(hostname())}`);
    const held = lockedIn(folder, () => readFileSync(lock(), 'utf8'));
    expect(held).toBe(`${process.pid.toString(36)} ${tag(hostname())}`);
    expect(existsSync(lock())).toBe(false);
  });

  test('one that runs is waited for, with a word', async () => {
    lockedIn(folder, () => undefined);
    // It lives until it is ended, and lets go when it is told that somebody waits.
    const told = join(home, 'told');
    const other = spawn(process.execPath, [
      '-e',
      `const fs = require('fs'), [told, lock] = ${JSON.stringify([told, lock()])};
       setInterval(() => { if (fs.existsSync(told)) fs.rmSync(lock, { force: true }); }, 20);`,
    ]);
    try {
      writeFileSync(lock(), `${(other.pid ?? 0).toString(36)} ${tag(hostname())}`);
      const said: string[] = [];
      expect(
        lockedIn(
          folder,
          () => 'mine',
          () => {
            said.push('waits');
            writeFileSync(told, '');
          },
        ),
      ).toBe('mine');
      expect(said).toEqual(['waits']);
    } finally {
      other.kill();
    }
  });

  test('one that does not end is refused in words, and nothing of it is touched', () => {
    lockedIn(folder, () => undefined);
    const holder = `1 ${tag(hostname())}`;
    writeFileSync(lock(), holder);
    expect(() => lockedIn(folder, () => 'mine')).toThrow(/another run of Fayplate writes into .*deep\/packet/);
    expect(readFileSync(lock(), 'utf8')).toBe(holder);
  });
});
