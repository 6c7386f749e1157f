import { spawn, spawnSync } from 'node:child_process';
import { mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { build } from 'esbuild';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { go } from '../support/go.js';
import { changed, pump, root } from '../support/pump.js';

const job = join(root, 'examples/lift-pump/job.yaml');
const bash = '/bin/bash';
const hasBash = spawnSync(bash, ['-c', 'true']).status === 0;
let folder = '';
let program = '';
let wrong = '';

// A program of its own from the sources: what stands in `bundle` may be of yesterday.
beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'fayplate-process-'));
  program = join(folder, 'fayplate.mjs');
  wrong = join(folder, 'wrong.yaml');
  writeFileSync(wrong, changed('over P4 P10 = 7.873', 'over P4 P10 = 7.973'));
  await build({
    stdin: {
      contents: "import { main } from './src/entry.js'; await main(process.argv.slice(2));",
      resolveDir: join(import.meta.dirname, '../..'),
    },
    bundle: true,
    splitting: false,
    format: 'esm',
    platform: 'node',
    conditions: ['@fayplate/source'],
    outfile: program,
    banner: { js: "import{createRequire as __cr}from'node:module';const require=__cr(import.meta.url);" },
    logLevel: 'error',
  });
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const start = (args: readonly string[], options: { readonly env?: NodeJS.ProcessEnv; readonly input?: string } = {}) =>
  spawnSync(process.execPath, [program, ...args], { encoding: 'utf8', ...options });

describe('as a process', () => {
  test('reads standard input for -, and keeps COLUMNS', () => {
    const { status, stdout, stderr } = start(['locate', '-'], { input: pump, env: { ...process.env, COLUMNS: '64' } });
    expect([status, stderr]).toEqual([0, '']);
    expect(Math.max(...stdout.split('\n').map((l) => l.length))).toBeLessThanOrEqual(64);
    expect(stdout).not.toContain('\u001b');
  });

  test('ends quietly where the reader of its output goes away', async () => {
    for (const [args, ends] of [
      [['table', job], 0],
      [['locate', wrong], 1],
    ] as const) {
      const child = spawn(process.execPath, [program, ...args], { stdio: ['ignore', 'pipe', 'pipe'] });
      let said = '';
      child.stderr.on('data', (d: Buffer) => {
        said += d.toString();
      });
      child.stdout.destroy();
      const status = await new Promise((resolve) => child.once('exit', resolve));
      expect([status, said]).toEqual([ends, '']);
    }
  });

  test('says a missing and an unreadable file in words', () => {
    expect(start(['locate', join(folder, 'nowhere.yaml')]).stderr).toContain('no such file');
    const { status, stderr } = start(['locate', folder]);
    expect(status).toBe(2);
    expect(stderr).toContain('is a folder: name the job file in it');
  });
});

describe('- is standard output', () => {
  test.each([
    ['a PDF', ['print', job, '--out', '-'], /^%PDF-[^]*%%EOF\s*$/],
    ['a picture', ['stack', job, '--picture', '-'], /^<svg [^]*<\/svg>\s*$/],
    ['a table', ['table', job, '--csv', '--out', '-'], /^n,side,hole,[^]*\n$/],
    ['a solid', ['table', job, '--step', '-'], /^ISO-10303-21;[^]*END-ISO-10303-21;\s*$/],
    [
      'a new job',
      ['new', '-', '--part', 'a, none, studs, 12 4 8', '--part', 'b, bore, holes, 1 5 9'],
      /^# A Fayplate job\.[^]*margin: 12 mm \}\n$/,
    ],
    ['a calibration sheet', ['printer', 'shed', '--sheet', '-'], /^%PDF-[^]*%%EOF\s*$/],
  ] as const)('%s stands there alone, and words go to standard error', (_, args, shape) => {
    const { status, stdout } = spawnSync(process.execPath, [program, ...args], { encoding: 'latin1', cwd: folder });
    expect(status).toBe(0);
    expect(stdout).toMatch(shape);
    expect(readdirSync(folder)).not.toContain('-');
  });

  test('but for what is many files, and what --json wants for itself', async () => {
    for (const args of [
      ['packet', 'job.yaml', '--out', '-'],
      ['print', 'job.yaml', '--out', '-', '--json'],
      ['locate', 'job.yaml', '--picture', '-'],
    ]) {
      const { code, err, files } = await go(args, { 'job.yaml': pump });
      expect([args[0], code, files.size]).toEqual([args[0], 2, 0]);
      expect(err).toContain('file');
    }
  });
});

describe.each([
  ['zsh', '-n'],
  ['fish', '--no-execute'],
] as const)('completions in %s', (shell, check) => {
  test.skipIf(spawnSync(shell, ['-c', 'true']).status !== 0)(
    'are sound to it (skipped where it is not installed)',
    async () => {
      const { out } = await go(['completions', shell], {});
      const read = (script: string) => {
        writeFileSync(join(folder, shell), script);
        return spawnSync(shell, [check, join(folder, shell)], { encoding: 'utf8' });
      };
      expect(read(out)).toMatchObject({ status: 0, stderr: '' });
      expect(read(`${out}\nif (`).status).not.toBe(0);
    },
  );
});

describe.skipIf(!hasBash)(`completions in bash (skipped where ${bash} is not installed)`, () => {
  const complete = async (line: string): Promise<readonly string[]> => {
    const { out } = await go(['completions', 'bash'], {});
    const words = line.split(' ');
    const script =
      `${out}\nCOMP_WORDS=(${words.map((w) => `'${w}'`).join(' ')}); COMP_CWORD=${words.length - 1}; _fayplate; ` +
      `printf '%s\\n' "\${COMPREPLY[@]}"; complete -p fayplate >/dev/null`;
    const { status, stdout, stderr } = spawnSync(bash, ['--norc', '-c', script], {
      encoding: 'utf8',
      cwd: join(root, 'examples/lift-pump'),
    });
    expect([status, stderr]).toEqual([0, '']);
    return stdout.split('\n').filter((w) => w !== '');
  };

  test('commands, flags of the command, files, and what a flag takes', async () => {
    expect(await complete('fayplate p')).toEqual(['plate', 'print', 'printer', 'prove', 'packet', 'page']);
    expect(await complete('fayplate table --or')).toEqual(['--origin']);
    expect(await complete('fayplate locate --or')).toEqual([]);
    expect(await complete('fayplate locate jo')).toEqual(['job.yaml']);
    expect(await complete('fayplate locate job.yaml --units ')).toEqual(['in', 'mm']);
    expect(await complete('fayplate print job.yaml --what g')).toEqual(['gasket']);
    expect(await complete('fayplate look th')).toEqual(['thread']);
    expect(await complete('fayplate completions f')).toEqual(['fish']);
  });
});
