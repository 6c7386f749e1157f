import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { root } from './support/pump.js';

// The built command, run by each Node that people have. Those that do not run the tests come from the package registry,
// as the package `node`.
const versions = ['20.20.2', '22.23.3', '24.21.0'];
const program = join(import.meta.dirname, '../bin/fayplate.js');
const job = join(root, 'examples/lift-pump/job.yaml');

const major = (version: string): string => version.split('.')[0] ?? '';
const own = process.versions.node;

/** Where a Node of this version lies; fetched once and kept by npx. */
const nodeOf = (version: string): string => {
  if (major(version) === major(own)) return process.execPath;
  const found = spawnSync(
    'npx',
    ['--yes', '--prefer-offline', '-p', `node@${version}`, 'node', '-p', 'process.execPath'],
    {
      encoding: 'utf8',
      cwd: tmpdir(),
    },
  );
  if (found.status !== 0) throw new Error(`Node ${version} cannot be had: ${found.stderr}`);
  return found.stdout.trim();
};

let folder = '';
beforeAll(() => {
  if (!existsSync(join(import.meta.dirname, '../bundle/fayplate.js')))
    throw new Error('the command line is not built yet: npm run demo, or pnpm turbo build, builds it');
  folder = mkdtempSync(join(tmpdir(), 'fayplate-versions-'));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const ran = (node: string, args: readonly string[], flags: readonly string[] = []) => {
  const { status, stdout, stderr } = spawnSync(node, [...flags, program, ...args], { encoding: 'utf8', cwd: folder });
  return { status, stdout, stderr };
};

/** Every file of a packet as its bytes, a letter each. */
const packetBy = (node: string, name: string): ReadonlyMap<string, string> => {
  const out = join(folder, name);
  const { status, stderr } = ran(node, ['packet', job, '--out', out, '--trials', '100']);
  expect([status, stderr]).toEqual([0, '']);
  return new Map(readdirSync(out).map((f) => [f, readFileSync(join(out, f), 'latin1')]));
};

describe.each(versions)('Node %s', (version) => {
  test('says what the Node of these tests says, and nothing on standard error', () => {
    const node = nodeOf(version);
    expect(spawnSync(node, ['--version'], { encoding: 'utf8' }).stdout).toContain(`v${major(version)}.`);
    for (const args of [['--version'], ['check', job]]) {
      const here = ran(process.execPath, args);
      expect(here).toMatchObject({ status: 0, stderr: '' });
      // Twice: with what an earlier run kept, and after it has kept it.
      for (let again = 0; again < 2; again++) expect(ran(node, args)).toEqual(here);
    }
  });

  test('writes the same packet, to the byte', () => {
    const [theirs, ours] = [packetBy(nodeOf(version), version), packetBy(process.execPath, `own-${version}`)];
    expect(ours.size).toBeGreaterThan(10);
    expect([...theirs.keys()]).toEqual([...ours.keys()]);
    for (const [name, bytes] of ours) expect([name, theirs.get(name) === bytes]).toEqual([name, true]);
  });
});

test('what a version does not know would be seen on standard error', () => {
  const { stderr } = ran(
    process.execPath,
    ['--version'],
    ['--eval', "require('node:v8').setFlagsFromString('--no-such-flag')"],
  );
  expect(stderr).not.toBe('');
});
