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
    // The fonts' manifest points at a file of its terms.
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

/** What the build of the command line found in itself and in the page, with how long its terms are. */
const bundled = (): readonly { readonly name: string; readonly licence: string; readonly letters: number }[] => {
  const list = join(root, 'apps/cli/bundle/licences.json');
  if (!existsSync(list))
    throw new Error('the command line is not built yet: npm run demo, or pnpm turbo build, builds it');
  return JSON.parse(readFileSync(list, 'utf8')) as ReturnType<typeof bundled>;
};

test('all that is bundled is named, and nothing else is said to run on the user’s machine', () => {
  const [, brought = ''] = /These bring others with them[^:]*: ([^]*?)\n\n/.exec(shipped) ?? [];
  const others = [...brought.matchAll(/@?[a-z0-9][a-z0-9-]*(?:\/[a-z0-9-]+)?(?=,| and| \(|\))/g)].map(([name]) => name);
  const named = [...listed.map((l) => l.name), ...others];
  expect(bundled().filter((b) => !named.includes(b.name))).toEqual([]);
  expect(listed.filter((l) => !bundled().some((b) => b.name === l.name))).toEqual([]);
});

test('the terms of all that is bundled are printed whole, in one file beside it and in the page', () => {
  const text = readFileSync(join(root, 'apps/cli/bundle/LICENCES.txt'), 'utf8');
  const page = readFileSync(join(root, 'apps/cli/bundle/page.html'), 'utf8');
  for (const { name, letters } of bundled()) {
    expect(text).toContain(`\n${name} `);
    expect(letters).toBeGreaterThan(500);
  }
  const fonts = readFileSync(join(root, 'apps/cli/node_modules/dejavu-fonts-ttf/LICENSE'), 'utf8');
  expect(text).toContain(fonts.replaceAll('\r', '').trim());
  for (const name of ['preact', 'zod', 'pdf-lib', 'dejavu-fonts-ttf']) expect(page).toContain(`\n${name} `);
});

test('every version is one version', () => {
  const loose = rooms.flatMap(({ folder, manifest }) =>
    Object.entries({ ...manifest.dependencies, ...manifest.devDependencies })
      .filter(([, v]) => v !== 'workspace:*' && !/^\d+\.\d+\.\d+$/.test(v))
      .map(([n, v]) => `${folder}: ${n} ${v}`),
  );
  expect(loose).toEqual([]);
});
