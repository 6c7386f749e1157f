import { readFileSync, readdirSync } from 'node:fs';
import { builtinModules } from 'node:module';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';

/** Which rooms each room may import: arrows run one way. Packages never see Node. */
const mayImport: Readonly<Record<string, readonly string[]>> = {
  'packages/core': [],
  'packages/handbook': ['core'],
  'packages/job': ['core', 'handbook'],
  'packages/survey': ['core', 'handbook', 'job'],
  'packages/layout': ['core', 'handbook', 'job', 'survey'],
  'packages/plate': ['core', 'handbook', 'job', 'survey', 'layout'],
  'packages/machining': ['core', 'handbook', 'job', 'survey', 'layout', 'plate'],
  'packages/drawing': ['core'],
  'packages/pictures': ['core', 'handbook', 'job', 'survey', 'layout', 'plate', 'machining', 'drawing'],
  'packages/study': ['core', 'handbook', 'job', 'survey', 'layout', 'plate', 'machining', 'drawing', 'pictures'],
  'apps/print': ['core', 'handbook', 'job', 'survey', 'layout', 'plate', 'machining', 'drawing', 'pictures'],
  'apps/cli': [
    'core',
    'handbook',
    'job',
    'survey',
    'layout',
    'plate',
    'machining',
    'drawing',
    'pictures',
    'study',
    'print',
  ],
};

const root = join(import.meta.dirname, '..');
const imported = /(?:from|import|import\()\s*['"]([^'"]+)['"]/g;
const ambient = /\b(?:process|Buffer|__dirname|require)\s*[.(]|\bDate\.now\b|\bnew Date\(\)|\bMath\.random\b/;

/** What is wrong with one source text of a room: imports of later rooms, of Node, or of another room's inside. */
const wrongs = (room: string, source: string): readonly string[] => {
  const allowed = mayImport[room] ?? [];
  const pure = room.startsWith('packages/');
  const code = source.replace(/\/\*[\s\S]*?\*\/|\/\/.*$/gm, '');
  const found: string[] = [];
  for (const [, target = ''] of code.matchAll(imported)) {
    if (target.startsWith('@fayplate/') && !allowed.includes(target.slice('@fayplate/'.length))) found.push(target);
    if (target.startsWith('../../') && target.includes('/src/')) found.push(target);
    if (pure && (target.startsWith('node:') || builtinModules.includes(target))) found.push(target);
  }
  if (pure && ambient.test(code)) found.push(String(ambient.exec(code)?.[0]));
  return found;
};

const sources = (room: string): readonly string[] =>
  readdirSync(join(root, room, 'src'), { recursive: true, encoding: 'utf8' }).filter((f) => f.endsWith('.ts'));

describe('arrows point one way', () => {
  test.each(Object.keys(mayImport))('%s imports only what stands before it', (room) => {
    const files = sources(room);
    expect(files.length).toBeGreaterThan(0);
    for (const file of files)
      expect([file, wrongs(room, readFileSync(join(root, room, 'src', file), 'utf8'))]).toEqual([file, []]);
  });

  test.each(Object.keys(mayImport))('%s lists no later room among its dependencies', (room) => {
    const manifest = JSON.parse(readFileSync(join(root, room, 'package.json'), 'utf8')) as {
      dependencies?: Record<string, string>;
    };
    const rooms = Object.keys(manifest.dependencies ?? {}).filter((d) => d.startsWith('@fayplate/'));
    expect(rooms.filter((d) => !(mayImport[room] ?? []).includes(d.slice('@fayplate/'.length)))).toEqual([]);
  });

  test('every room on disk is named here', () => {
    const rooms = ['packages', 'apps'].flatMap((top) =>
      readdirSync(join(root, top), { withFileTypes: true })
        .filter((d) => d.isDirectory())
        .map((d) => `${top}/${d.name}`),
    );
    expect(rooms.sort()).toEqual(Object.keys(mayImport).sort());
  });

  test('the check does find a wrong arrow', () => {
    expect(wrongs('packages/core', "import { locate } from '@fayplate/survey';")).toEqual(['@fayplate/survey']);
    expect(wrongs('packages/job', "import { readFileSync } from 'node:fs';")).toEqual(['node:fs']);
    expect(wrongs('packages/job', 'const t = Date.now();')).toHaveLength(1);
    expect(wrongs('packages/plate', "import { solve } from '../../survey/src/solve.js';")).toHaveLength(1);
    expect(wrongs('apps/cli', "import { readFileSync } from 'node:fs';")).toEqual([]);
  });
});
