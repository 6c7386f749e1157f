import { spawnSync } from 'node:child_process';
import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  readdirSync,
  rmSync,
  truncateSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { shellPath, shellWord } from '@fayplate/core';
import { build } from 'esbuild';
import fc from 'fast-check';
import { afterAll, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import { pump } from '../support/pump.js';

// What a person types, what the environment says and what the disk has room for: none of it ends in status 3 or in a
// trace of the program.
const bash = '/bin/bash';
const has = (file: string): boolean => existsSync(file);
let program = '';
let all = '';
let folder = '';
beforeAll(async () => {
  all = mkdtempSync(join(tmpdir(), 'fayplate-outside-'));
  program = join(all, 'fayplate.mjs');
  await build({
    stdin: {
      contents: "import { main } from './src/entry.js'; await main(process.argv.slice(2));",
      resolveDir: join(import.meta.dirname, '../..'),
    },
    bundle: true,
    format: 'esm',
    platform: 'node',
    conditions: ['@fayplate/source'],
    outfile: program,
    banner: { js: "import{createRequire as __cr}from'node:module';const require=__cr(import.meta.url);" },
    logLevel: 'error',
  });
});
afterAll(() => rmSync(all, { recursive: true, force: true }));
let nth = 0;
beforeEach(() => {
  folder = join(all, `case-${nth++}`);
  mkdirSync(folder);
  writeFileSync(join(folder, 'job.yaml'), pump);
});

const trace = /\n\s+at |node:internal|Error:/;
/** One command in the folder; asserts that it ended as a person should see it. */
const start = (args: readonly string[], env: NodeJS.ProcessEnv = {}, input = '') => {
  const { HOME: _home, XDG_CONFIG_HOME: _config, FAYPLATE_SETTINGS: _settings, ...rest } = process.env;
  const ran = spawnSync(process.execPath, [program, ...args], {
    encoding: 'utf8',
    cwd: folder,
    env: { ...rest, ...env },
    input,
    // Only a hang meets it.
    timeout: 600_000,
  });
  expect([args, ran.signal, ran.status === 3, trace.test(ran.stderr)]).toEqual([args, null, false, false]);
  return ran;
};
const inShell = (line: string) => spawnSync(bash, ['-c', line], { encoding: 'utf8', cwd: folder });
const node = `${shellWord(process.execPath)} `;

describe('what is typed', () => {
  const parts = ['--part', 'pump, spigot, studs, 12 4 8', '--part', 'motor, spigot, holes, 1:30 4:30'];
  test.each([[''], [' '], ['x'.repeat(300)], ['a\nb'], ['\u202e'], ['#: "\'{}'], ['null']])('new --job %j', (name) => {
    const { status } = start(['new', 'new.yaml', '--job', name, ...parts]);
    expect([0, 2]).toContain(status);
    if (status === 0) expect(start(['check', 'new.yaml']).status).toBe(1);
    else expect(has(join(folder, 'new.yaml'))).toBe(false);
  });

  test.skipIf(!has(bash))('a remedy runs as it is shown, however the file is called', () => {
    for (const name of ["it's a $(job).yaml", 'a  b.yaml', '-x.yaml', 'ö"`.yaml', '~.yaml', 'a;b&c.yaml']) {
      const { status, stdout } = start(['new', `./${name}`, ...parts]);
      expect(status).toBe(0);
      const shown = stdout.slice(stdout.indexOf('fayplate check '), -1);
      const { status: checked, stderr } = inShell(shown.replace('fayplate', `${node}${shellWord(program)}`));
      expect([name, checked, stderr]).toEqual([name, 1, '']);
    }
  });

  test.skipIf(!has(bash))('any word is quoted so that a shell reads it as it is', () => {
    const words = fc.sample(
      fc.string({ unit: 'grapheme', minLength: 1, maxLength: 12 }).filter((w) => !w.includes('\0')),
      { numRuns: 300, seed: 18 },
    );
    const { stdout } = inShell(`printf '%s\\0' ${words.map(shellPath).join(' ')}`);
    expect(stdout.split('\0').slice(0, -1)).toEqual(words.map((w) => (/^-./.test(w) ? `./${w}` : w)));
    // A value that must fail: unquoted, a space makes two words of one.
    expect(inShell(`printf '%s\\0' a b`).stdout.split('\0')).toHaveLength(3);
  });

  test('a path is shown as one line, whatever is in it', () => {
    const { status, stderr } = start(['check', 'no\nsuch\u001b[2J.yaml']);
    expect(status).toBe(2);
    expect(stderr).toBe('fayplate check: no[U+000A]such[U+001B][2J.yaml is not there: no such file\n');
  });
});

describe('the environment', () => {
  const measured = ['printer', 'workshop', '--wide', '149.4/150', '--high', '199.1/200'];
  test.each([
    [{ FAYPLATE_SETTINGS: 'here' }, 2],
    [{ FAYPLATE_SETTINGS: './here' }, 2],
  ] as const)('%j is refused', (env, status) => {
    expect(start(measured, env).status).toBe(status);
    expect(readdirSync(folder)).toEqual(['job.yaml']);
  });

  test('HOME and XDG_CONFIG_HOME count only as full paths: nothing is ever kept in the current folder', () => {
    const home = join(all, 'home');
    expect(start(measured, { HOME: home, XDG_CONFIG_HOME: 'here' }).status).toBe(0);
    expect(has(join(home, '.config/fayplate/printers/workshop.json'))).toBe(true);
    expect(start(measured, { HOME: home, XDG_CONFIG_HOME: join(home, 'config') }).status).toBe(0);
    expect(has(join(home, 'config/fayplate/printers/workshop.json'))).toBe(true);
    expect(start(['check', 'job.yaml'], { HOME: '' }).status).toBe(0);
    expect(readdirSync(folder)).toEqual(['job.yaml']);
  });

  test('a printer measured too loosely, or kept so, is refused', () => {
    const env = { FAYPLATE_SETTINGS: join(folder, 'settings') };
    expect(start([...measured, '--plus-minus', '50 mm'], env).status).toBe(2);
    expect(start(measured, env).status).toBe(0);
    const kept = join(folder, 'settings/printers/workshop.json');
    writeFileSync(kept, readFileSync(kept, 'utf8').replace(/"wide": 0\.002/, '"wide": 1e9'));
    const { status, stderr } = start(['print', 'job.yaml', '--printer', 'workshop', '--out', 'd.pdf'], env);
    expect([status, has(join(folder, 'd.pdf'))]).toEqual([2, false]);
    expect(stderr).toContain('says nothing of a printer');
  });
});

describe('what is read', () => {
  test.skipIf(!has('/usr/bin/mkfifo'))(
    'a pipe or a device is refused at once, in place of a job or of its list',
    () => {
      spawnSync('/usr/bin/mkfifo', [join(folder, 'pipe')]);
      writeFileSync(
        join(folder, 'list.yaml'),
        pump.replace(/readings:\n(?:\s+#.*\n|\s+- .*\n)+/, 'readings: { csv: pipe }\n'),
      );
      for (const name of ['pipe', '/dev/zero']) expect(start(['check', name]).stderr).toContain('is no ordinary file');
      expect(start(['check', 'list.yaml']).status).toBe(2);
    },
  );

  test('a file is judged by its size before it is read', () => {
    writeFileSync(join(folder, 'big.yaml'), '');
    truncateSync(join(folder, 'big.yaml'), 3_000_000_000);
    const { status, stderr } = start(['check', 'big.yaml']);
    expect([status, stderr.includes('larger than 1 MiB')]).toEqual([2, true]);
    expect(start(['check', '-'], {}, ' '.repeat(1_200_000)).stderr).toContain('standard input is larger than 1 MiB');
    expect(start(['check', '-'], {}, pump).status).toBe(0);
  });
});

describe('a full disk', () => {
  test.skipIf(!has('/dev/full') || !has(bash))('under what is said is told, and is no fault of the program', () => {
    for (const [line, told] of [
      ['locate job.yaml > /dev/full', 'the disk is full'],
      ['locate job.yaml --json > /dev/full', 'the disk is full'],
      ['--help > /dev/full', 'the disk is full'],
      ['locate nothing.yaml 2> /dev/full', ''],
      ['locate job.yaml > /dev/full 2> /dev/full', ''],
    ] as const) {
      const { status, stderr } = inShell(`${node}${shellWord(program)} ${line}`);
      expect([line, status, trace.test(stderr)]).toEqual([line, 2, false]);
      expect(stderr).toContain(told);
    }
  });

  test.skipIf(!has(bash))('a file larger than the system allows is not half written', () => {
    const { status, stderr } = inShell(`ulimit -f 20; ${node}${shellWord(program)} packet job.yaml --out large`);
    expect([status, trace.test(stderr)]).toEqual([2, false]);
    expect(stderr).toMatch(/was not written: the file is larger than the system lets one be\. Nothing/);
  });
});
