import { existsSync, readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { root } from '../support/cli.js';

interface Manifest {
  readonly license?: string;
  readonly licenses?: readonly { readonly type: string }[];
  readonly dependencies?: Readonly<Record<string, string>>;
  readonly devDependencies?: Readonly<Record<string, string>>;
}

const read = (path: string): Manifest => JSON.parse(readFileSync(path, 'utf8')) as Manifest;
const folders = [
  '.',
  'test',
  ...['packages', 'apps'].flatMap((top) => readdirSync(join(root, top)).map((d) => `${top}/${d}`)),
];
const rooms = folders
  .filter((f) => existsSync(join(root, f, 'package.json')))
  .map((folder) => ({ folder, manifest: read(join(root, folder, 'package.json')) }));

/** Library → the licence that its own manifest states, for what the rooms name under one key. */
const named = (key: 'dependencies' | 'devDependencies'): ReadonlyMap<string, string> =>
  new Map(
    rooms.flatMap(({ folder, manifest }) =>
      Object.keys(manifest[key] ?? {}).flatMap((library): [string, string][] => {
        if (library.startsWith('@fayplate/') || library === 'fayplate') return [];
        const own = read(join(root, folder, 'node_modules', library, 'package.json'));
        return [[library, own.license ?? own.licenses?.[0]?.type ?? '']];
      }),
    ),
  );

const page = readFileSync(join(root, 'apps/cli/DEPENDENCIES.md'), 'utf8');
const [shipped = '', tools = ''] = page.split('For building and testing only:');
const listed = [...shipped.matchAll(/^\| ([a-z0-9.@/-]+) \| ([^|]+) \| ([^|]+) \| ([^|]+) \|$/gm)]
  .slice(1)
  .map(([, name = '', licence = '', reason = '', weighed = '']) => ({ name, licence, reason, weighed }));

test('what runs on the user’s machine is listed, with its licence, its reason and what it was weighed against', () => {
  const run = named('dependencies');
  expect(listed.map((l) => l.name).sort()).toEqual([...run.keys()].sort());
  for (const l of listed) {
    // The fonts' manifest points at a file; its terms are printed whole in THIRD-PARTY.md.
    if (l.name !== 'dejavu-fonts-ttf') expect([l.name, l.licence]).toEqual([l.name, run.get(l.name)]);
    expect(l.reason.length * l.weighed.length).toBeGreaterThan(0);
  }
});

test('what only builds and tests is named, under its licence', () => {
  const dev = [...named('devDependencies')].filter(([library]) => !named('dependencies').has(library));
  const groups = tools.split(';');
  for (const [library, licence] of dev) {
    const group =
      groups.find((g) => new RegExp(`(?:^|[\\s,])${library.replaceAll('/', '\\/')}(?:[\\s,(]|$)`).test(g)) ?? '';
    const short = licence.replace(/[()]/g, '').replace('-only', '').replace(' OR ', ' or ');
    expect([library, group.includes(short)]).toEqual([library, true]);
  }
});

test('the fonts’ terms are printed whole', () => {
  const terms = readFileSync(join(root, 'apps/cli/node_modules/dejavu-fonts-ttf/LICENSE'), 'utf8');
  expect(readFileSync(join(root, 'apps/cli/THIRD-PARTY.md'), 'utf8')).toContain(terms.trim());
});

test('every version is one version', () => {
  const loose = rooms.flatMap(({ folder, manifest }) =>
    Object.entries({ ...manifest.dependencies, ...manifest.devDependencies })
      .filter(([, v]) => v !== 'workspace:*' && !/^\d+\.\d+\.\d+$/.test(v))
      .map(([n, v]) => `${folder}: ${n} ${v}`),
  );
  expect(loose).toEqual([]);
});
