import { spawn } from 'node:child_process';
import { chmodSync, mkdirSync, mkdtempSync, readFileSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { build } from 'esbuild';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { WriteRefused, writeWhole } from '../../src/files/write.js';

let folder = '';
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'fayplate-'));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe('writing a file whole', () => {
  test('a new file, and one of ours again', () => {
    const path = join(folder, 'new/deeper/a.svg');
    writeWhole(path, '<!-- Fayplate --> 1', false);
    writeWhole(path, '<!-- Fayplate --> 2', false);
    expect(readFileSync(path, 'utf8')).toBe('<!-- Fayplate --> 2');
    expect(readdirSync(join(folder, 'new/deeper'))).toEqual(['a.svg']);
  });

  test('a file that somebody else wrote is kept, unless forced', () => {
    const path = join(folder, 'notes.txt');
    writeFileSync(path, 'my notes');
    expect(() => writeWhole(path, 'x', false)).toThrow(WriteRefused);
    expect(readFileSync(path, 'utf8')).toBe('my notes');
    writeWhole(path, 'x', true);
    expect(readFileSync(path, 'utf8')).toBe('x');
  });

  test('what cannot be written is said plainly, and nothing is left behind', () => {
    writeFileSync(join(folder, 'file'), 'Fayplate');
    expect(() => writeWhole(join(folder, 'file', 'below'), 'x', false)).toThrow(/was not written: part of the path is a file/);
    const locked = join(folder, 'locked');
    mkdirSync(locked);
    chmodSync(locked, 0o500);
    // The superuser may write anywhere: then there is nothing to refuse.
    if (process.getuid?.() !== 0) expect(() => writeWhole(join(locked, 'a'), 'x', false)).toThrow(/no right to write/);
    expect(() => writeWhole(join(folder, 'n'.repeat(300)), 'x', false)).toThrow(/the name is too long/);
    expect(() => writeWhole('/dev/full/x', 'x', false)).toThrow(WriteRefused);
  });

  test('killed at any moment, 200 times: the old file or a new one, never half', async () => {
    const writer = join(folder, 'writer.mjs');
    const target = join(folder, 'target.txt');
    await build({ entryPoints: [join(import.meta.dirname, '../../src/files/write.ts')], bundle: true, format: 'esm', platform: 'node', outfile: join(folder, 'write.mjs'), logLevel: 'error' });
    writeFileSync(
      writer,
      `import { writeWhole } from './write.mjs';
const path = process.argv[2];
process.stdout.write('ready');
for (let i = 0; ; i++) writeWhole(path, 'Fayplate ' + String(i % 10).repeat(300_000) + ' end', false);`,
    );
    const whole = /^Fayplate (\d)\1{299999} end$/;
    let seen = 0;
    for (let i = 0; i < 200; i++) {
      const child = spawn(process.execPath, [writer, target], { stdio: ['ignore', 'pipe', 'ignore'] });
      await new Promise((resolve) => child.stdout.once('data', resolve));
      // Up to a few writes long, by steps that share no factor with them.
      await new Promise((resolve) => setTimeout(resolve, (i * 7) % 23));
      child.kill('SIGKILL');
      await new Promise((resolve) => child.once('exit', resolve));
      const names = readdirSync(folder);
      if (!names.includes('target.txt')) continue;
      seen++;
      expect(whole.test(readFileSync(target, 'utf8'))).toBe(true);
    }
    expect(seen).toBeGreaterThan(150);
    // A value that must fail: half of a file is seen to be half.
    expect(whole.test(readFileSync(target, 'utf8').slice(0, 200_000))).toBe(false);
  });
});
