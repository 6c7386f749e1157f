import { chmodSync, existsSync, mkdirSync, mkdtempSync, readFileSync, readdirSync, rmSync, symlinkSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { isOurs } from '@fayplate/study';
import { WriteRefused, writeWhole } from '../../src/files/write.js';
import { onRoot } from '../support/pump.js';

let folder = '';
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'fayplate-'));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const put = (path: string, content: string, force = false): void => writeWhole([{ path, content }], { force, isOurs });
const picture = (n: number): string => `<svg xmlns="http://www.w3.org/2000/svg"><title>Fayplate ${n}</title></svg>`;

describe('writing files whole', () => {
  test('a new file, and one of ours again', () => {
    const path = join(folder, 'new/deeper/a.svg');
    put(path, picture(1));
    put(path, picture(2));
    expect(readFileSync(path, 'utf8')).toBe(picture(2));
    expect(readdirSync(join(folder, 'new/deeper'))).toEqual(['a.svg']);
  });

  test('every kind of file of a packet is known again', async () => {
    const { files } = await onRoot(['packet', 'examples/lift-pump/job.yaml', '--out', join(folder, 'packet')]);
    const packet = [...files].map(([path, content]) => ({ path, content }));
    expect(new Set(packet.map((f) => f.path.slice(f.path.lastIndexOf('.'))))).toEqual(
      new Set(['.pdf', '.html', '.svg', '.csv', '.cnc', '.step', '.json']),
    );
    writeWhole(packet, { force: false, isOurs });
    writeWhole(packet, { force: false, isOurs });
    expect(readdirSync(join(folder, 'packet')).length).toBe(packet.length);
  });

  test('a file that somebody else wrote is kept, unless forced', () => {
    const path = join(folder, 'notes.txt');
    for (const notes of [
      'my notes',
      'what Fayplate said',
      '<svg xmlns="http://www.w3.org/2000/svg"/>',
      '# n,side,hole,op,tool,',
      '',
    ]) {
      put(path, notes, true);
      expect(() => put(path, 'x')).toThrow(WriteRefused);
      expect(readFileSync(path, 'utf8')).toBe(notes);
    }
    put(path, 'x', true);
    expect(readFileSync(path, 'utf8')).toBe('x');
  });

  test('a job file is never replaced unforced, though Fayplate began it: the readings in it are the person’s', async () => {
    const { files } = await onRoot([
      'new',
      'job.yaml',
      '--part',
      'pump, spigot, studs, 12 4 8',
      '--part',
      'motor, none, holes, 1:30 4:30 7:30 10:30',
    ]);
    const path = join(folder, 'job.yaml');
    put(path, String(files.get('job.yaml')).replace('# - between P1 spigot =', '- between P1 spigot = 0.8'));
    expect(() => put(path, 'x')).toThrow(/--force to replace it/);
    expect(readFileSync(path, 'utf8')).toContain('- between P1 spigot = 0.8');
  });

  test('all files or none: one that may not be written keeps the others from it', () => {
    const [a, b, c] = [join(folder, 'all/a.svg'), join(folder, 'all/b.svg'), join(folder, 'all/c.svg')];
    put(a, picture(1));
    put(c, 'mine', true);
    expect(() =>
      writeWhole(
        [a, b, c].map((path) => ({ path, content: picture(2) })),
        { force: false, isOurs },
      ),
    ).toThrow(WriteRefused);
    const long = join(folder, 'all', 'n'.repeat(300));
    expect(() =>
      writeWhole(
        [a, b, long].map((path) => ({ path, content: picture(2) })),
        { force: true, isOurs },
      ),
    ).toThrow(/n{300} was not written: the name is too long/);
    expect(() =>
      writeWhole(
        [a, join(c, 'below'), b].map((path) => ({ path, content: picture(2) })),
        { force: true, isOurs },
      ),
    ).toThrow(/below was not written/);
    expect(readFileSync(a, 'utf8')).toBe(picture(1));
    expect(readdirSync(join(folder, 'all'))).toEqual(['a.svg', 'c.svg']);
  });

  test('what cannot be written is said plainly, and nothing is left behind', () => {
    put(join(folder, 'file'), picture(1));
    expect(() => put(join(folder, 'file', 'below'), 'x')).toThrow(/was not written: part of the path is a file/);
    const locked = join(folder, 'locked');
    mkdirSync(locked);
    expect(() => put(locked, 'x', true)).toThrow(/is a folder/);
    chmodSync(locked, 0o500);
    // The superuser may write anywhere: then there is nothing to refuse.
    if (process.getuid?.() !== 0) expect(() => put(join(locked, 'a'), 'x')).toThrow(/may not write/);
    expect(() => put('/dev/full/x', 'x')).toThrow(WriteRefused);
    // Where there is no /proc, this is an ordinary place that nobody but the superuser may write to.
    if (existsSync('/proc/self')) expect(() => put('/proc/none/x', 'x')).toThrow(/no folder can be made there/);
    // A device would be done away with by renaming over it, forced or not.
    for (const force of [false, true]) expect(() => put('/dev/null', 'x', force)).toThrow(/not an ordinary file/);
  });

  test('two outputs never share a name, by whatever way it is written', () => {
    const home = join(folder, 'twice');
    put(join(home, 'a.svg'), picture(1));
    symlinkSync(join(home, 'a.svg'), join(home, 'b.svg'));
    for (const [one, other] of [
      ['a.svg', 'a.svg'],
      ['a.svg', '../twice/a.svg'],
      ['a.svg', 'b.svg'],
      ['new.svg', './new.svg'],
    ])
      expect(() =>
        writeWhole(
          [one, other].map((n) => ({ path: `${home}/${n}`, content: picture(2) })),
          { force: true, isOurs },
        ),
      ).toThrow(/two outputs|the same file/);
    expect(readFileSync(join(home, 'a.svg'), 'utf8')).toBe(picture(1));
    expect(readdirSync(home).sort()).toEqual(['a.svg', 'b.svg']);
  });
});
