import { mkdirSync, mkdtempSync, readFileSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import type * as Fs from 'node:fs';
import { hostname, tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, afterEach, beforeEach, describe, expect, test, vi } from 'vitest';

// The file system as the writer sees it, which can be told to fail at one of its changes, or at that one and all after
// it: a process that is killed there does nothing more, neither its work nor its tidying up.
const trouble = vi.hoisted(() => ({ at: -1, dead: false, count: 0 }));
vi.mock('node:fs', async (original) => {
  const fs = await original<typeof Fs>();
  const counted = <F extends (...args: never[]) => unknown>(work: F): F =>
    ((...args: never[]) => {
      const here = trouble.count++;
      if (here === trouble.at || (trouble.dead && here > trouble.at && trouble.at >= 0))
        throw Object.assign(new Error('no more'), { code: 'EPERM' });
      return work(...args);
    }) as F;
  return {
    ...fs,
    openSync: counted(fs.openSync),
    writeSync: counted(fs.writeSync),
    renameSync: counted(fs.renameSync),
    linkSync: counted(fs.linkSync),
    copyFileSync: counted(fs.copyFileSync),
    rmSync: counted(fs.rmSync),
    mkdirSync: counted(fs.mkdirSync),
    rmdirSync: counted(fs.rmdirSync),
  };
});
const { WriteRefused, writeWhole } = await import('../../src/files/write.js');
const { tag } = await import('../../src/files/swap.js');

const all = mkdtempSync(join(tmpdir(), 'fayplate-swap-'));
let folder = '';
const safely = <T>(work: () => T): T => {
  const { at } = trouble;
  trouble.at = -1;
  try {
    return work();
  } finally {
    trouble.at = at;
  }
};
let nth = 0;
beforeEach(() => {
  trouble.at = -1;
  folder = join(all, `case-${nth++}`);
  mkdirSync(folder);
});
afterEach(() => {
  trouble.at = -1;
  vi.restoreAllMocks();
});
afterAll(() => safely(() => rmSync(all, { recursive: true, force: true })));

const replacing = { force: true, isOurs: () => true };
/**
 * What a set of files holds: `one` and `two` are there before, `new` is not, `gone` goes, `mine` is kept under another
 * name.
 */
const set = (what: string) => [
  { path: join(folder, 'one'), content: `one ${what}` },
  { path: join(folder, 'two'), content: `two ${what}` },
  { path: join(folder, 'below/three'), content: `three ${what}` },
  { path: join(folder, 'new'), content: `new ${what}` },
  { path: join(folder, 'gone'), content: null },
  { path: join(folder, 'mine'), content: `mine ${what}`, keepAs: 'mine-changed' },
];
const before = { one: 'one old', two: 'two old', gone: 'gone old', mine: 'mine old', 'below/three': 'three old' };
const after = {
  one: 'one fresh',
  two: 'two fresh',
  new: 'new fresh',
  mine: 'mine fresh',
  'mine-changed': 'mine old',
  'below/three': 'three fresh',
};
const fill = (): void => {
  mkdirSync(join(folder, 'below'), { recursive: true });
  for (const [name, text] of Object.entries(before)) writeFileSync(join(folder, name), text);
};
const found = (): Record<string, string> =>
  Object.fromEntries(
    readdirSync(folder, { recursive: true, withFileTypes: true })
      .filter((e) => e.isFile())
      .map((e) => join(e.parentPath, e.name))
      .map((path) => [path.slice(folder.length + 1), readFileSync(path, 'utf8')]),
  );

/** How many changes of the disk the set takes. */
const changes = (): number => {
  fill();
  trouble.count = 0;
  writeWhole(set('fresh'), replacing);
  return trouble.count;
};

describe('a set of files', () => {
  test('is put in place whole, what goes with it goes, what is kept is kept', () => {
    expect(changes()).toBeGreaterThan(20);
    expect(found()).toEqual(after);
  });

  test('is none of it there where one change fails, whichever that is; or all, where only tidying up was left', () => {
    const steps = changes();
    let [none, whole] = [0, 0];
    for (let at = 0; at < steps; at++) {
      rmSync(folder, { recursive: true });
      fill();
      [trouble.at, trouble.dead, trouble.count] = [at, false, 0];
      let said = '';
      try {
        writeWhole(set('fresh'), replacing);
      } catch (error) {
        expect(error).toBeInstanceOf(WriteRefused);
        said = (error as Error).message;
      }
      trouble.at = -1;
      if (said === '') {
        whole++;
        // The next run takes away what could not be taken away.
        vi.spyOn(process, 'kill').mockImplementation(() => {
          throw Object.assign(new Error('none'), { code: 'ESRCH' });
        });
        writeWhole([{ path: join(folder, 'below/next'), content: 'x' }], replacing);
        writeWhole([{ path: join(folder, 'next'), content: 'x' }], replacing);
        vi.restoreAllMocks();
        expect([at, found()]).toEqual([at, { ...after, next: 'x', 'below/next': 'x' }]);
      } else {
        none++;
        expect(said).toContain('Nothing that was there has changed.');
        expect([at, found()]).toEqual([at, before]);
      }
    }
    expect(none).toBeGreaterThan(15);
    expect(whole).toBeGreaterThan(3);
  });

  test('killed at any change, is all old or all new once the next run has written there, and nothing is left over', () => {
    const steps = changes();
    let [old, fresh] = [0, 0];
    for (let at = 0; at < steps; at++) {
      rmSync(folder, { recursive: true });
      fill();
      [trouble.at, trouble.dead, trouble.count] = [at, true, 0];
      try {
        writeWhole(set('fresh'), replacing);
      } catch {
        // It is dead.
      }
      trouble.at = -1;
      // Each file is whole at this very moment.
      for (const [name, text] of Object.entries(found()))
        if (!name.includes('.fayplate-')) expect([...Object.values(before), ...Object.values(after)]).toContain(text);
      vi.spyOn(process, 'kill').mockImplementation(() => {
        throw Object.assign(new Error('none'), { code: 'ESRCH' });
      });
      writeWhole([{ path: join(folder, 'below/next'), content: 'x' }], replacing);
      writeWhole([{ path: join(folder, 'next'), content: 'x' }], replacing);
      vi.restoreAllMocks();
      const { next, 'below/next': below, ...files } = found();
      expect([next, below]).toEqual(['x', 'x']);
      // Folder by folder: each has a journal of its own.
      const top = Object.fromEntries(Object.entries(files).filter(([name]) => !name.startsWith('below/')));
      const [wasOld, isFresh] = [before, after].map((state) =>
        Object.entries(state).filter(([name]) => !name.startsWith('below/')),
      );
      const isNew = 'new' in top;
      expect([at, top]).toEqual([at, Object.fromEntries((isNew ? isFresh : wasOld) ?? [])]);
      if (isNew) fresh++;
      else old++;
    }
    expect(old).toBeGreaterThan(10);
    expect(fresh).toBeGreaterThan(5);
  });

  test('a run that is still at work is left alone', () => {
    fill();
    const mine = `.fayplate-${process.pid.toString(36)}-other-k3v9x0qa-0.part`;
    writeFileSync(join(folder, mine), 'half');
    writeFileSync(join(folder, '.a.svg.part'), 'somebody’s');
    writeWhole([{ path: join(folder, 'one'), content: 'x' }], replacing);
    expect(Object.keys(found())).toEqual(expect.arrayContaining([mine, '.a.svg.part']));
  });

  test('a journal that names what lies elsewhere is not followed', () => {
    const outside = join(all, 'outside');
    writeFileSync(outside, 'precious');
    fill();
    vi.spyOn(process, 'kill').mockImplementation(() => {
      throw Object.assign(new Error('none'), { code: 'ESRCH' });
    });
    for (const entry of [
      { name: '../outside', part: null, old: null, keepAs: null },
      { name: 'one', part: '../outside', old: null, keepAs: null },
      { name: 'one', part: null, old: null, keepAs: '../x' },
    ]) {
      const journal = `.fayplate-1-${tag(hostname())}-k3v9x0qa.journal`;
      writeFileSync(join(folder, journal), JSON.stringify({ fayplate: 1, entries: [entry] }));
      writeWhole([{ path: join(folder, 'next'), content: 'x' }], replacing);
      expect(readFileSync(outside, 'utf8')).toBe('precious');
      expect(found()).toMatchObject({ one: 'one old' });
      expect(Object.keys(found())).not.toContain(journal);
    }
    // One that names what lies here is.
    const journal = `.fayplate-1-${tag(hostname())}-k3v9x0qa.journal`;
    const entries = [{ name: 'one', part: null, old: null, keepAs: null }];
    writeFileSync(join(folder, journal), JSON.stringify({ fayplate: 1, entries }));
    writeWhole([{ path: join(folder, 'next'), content: 'x' }], replacing);
    expect(Object.keys(found())).not.toContain('one');
  });
});
