import { readFileSync, readdirSync } from 'node:fs';
import { builtinModules } from 'node:module';
import { dirname, join, normalize } from 'node:path';
import { createContext, runInContext } from 'node:vm';
import { lettering } from '@fayplate/drawing';
import { press, sheets } from '@fayplate/print';
import { answer } from '@fayplate/study';
import { build } from 'esbuild';
import { describe, expect, test } from 'vitest';

/** Which rooms each room may import: arrows run one way. Packages and print never see Node. */
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
  'packages/piece': ['core', 'plate', 'drawing', 'pictures'],
  'packages/study': [
    'core',
    'handbook',
    'job',
    'survey',
    'layout',
    'plate',
    'machining',
    'drawing',
    'pictures',
    'piece',
  ],
  'apps/print': ['core', 'handbook', 'job', 'survey', 'layout', 'plate', 'machining', 'drawing', 'pictures'],
  'apps/page': [
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
    'page',
  ],
};

const root = join(import.meta.dirname, '..');
const imported = /(?:from|import|import\()\s*['"]([^'"]+)['"]/g;
const ambient = /\b(?:process|Buffer|__dirname|require)\s*[.(]|\bDate\.now\b|\bnew Date\(\)|\bMath\.random\b/;

/** What is wrong with one source text of a room: imports of later rooms, of Node, or of another room's inside. */
const wrongs = (room: string, source: string): readonly string[] => {
  const allowed = mayImport[room] ?? [];
  const pure = room !== 'apps/cli';
  // The page sees no more of Node than a package does, but what its browser has: the day, and chance.
  const still = pure && room !== 'apps/page';
  const code = source.replace(/\/\*[\s\S]*?\*\/|\/\/.*$/gm, '');
  const found: string[] = [];
  for (const [, target = ''] of code.matchAll(imported)) {
    if (target.startsWith('@fayplate/') && !allowed.includes(target.slice('@fayplate/'.length))) found.push(target);
    if (target.startsWith('../../') && target.includes('/src/')) found.push(target);
    if (pure && (target.startsWith('node:') || builtinModules.includes(target))) found.push(target);
  }
  if (still && ambient.test(code)) found.push(String(ambient.exec(code)?.[0]));
  return found;
};

const sources = (room: string): readonly string[] =>
  readdirSync(join(root, room, 'src'), { recursive: true, encoding: 'utf8' }).filter((f) => /\.tsx?$/.test(f));

/** What each file of a room imports of the same room, imports of types included. */
type Arrows = ReadonlyMap<string, readonly string[]>;

const arrowsIn = (texts: ReadonlyMap<string, string>): Arrows =>
  new Map(
    [...texts].map(([file, text]) => {
      const targets = [...text.matchAll(imported)].map(([, target = '']) => target).filter((t) => t.startsWith('.'));
      const paths = targets.map((t) => normalize(join(dirname(file), t)).slice(0, -'.js'.length));
      return [file, paths.flatMap((p) => [`${p}.ts`, `${p}.tsx`].filter((f) => texts.has(f)))];
    }),
  );

/** Files that import each other in a ring, the first such ring; empty where there is none. */
const circleIn = (arrows: Arrows): readonly string[] => {
  const done = new Set<string>();
  const from = (file: string, path: readonly string[]): readonly string[] => {
    if (path.includes(file)) return [...path.slice(path.indexOf(file)), file];
    if (done.has(file)) return [];
    const circle = (arrows.get(file) ?? []).map((next) => from(next, [...path, file])).find((c) => c.length > 0);
    done.add(file);
    return circle ?? [];
  };
  return [...arrows.keys()].map((file) => from(file, [])).find((c) => c.length > 0) ?? [];
};

describe('no circle inside a room', () => {
  test.each(Object.keys(mayImport))('%s', (room) => {
    const texts = new Map(sources(room).map((f) => [f, readFileSync(join(root, room, 'src', f), 'utf8')]));
    const arrows = arrowsIn(texts);
    expect([...arrows.values()].flat().length).toBeGreaterThan(0);
    expect(circleIn(arrows)).toEqual([]);
  });

  test('the check does find one, of types too', () => {
    const texts = new Map([
      ['index.ts', "export { a } from './one/a.js';"],
      ['one/a.ts', "import type { B } from '../b.js';"],
      ['b.ts', "import { c } from './c.js';"],
      ['c.tsx', "import {\n  type A,\n} from './one/a.js';"],
    ]);
    expect(circleIn(arrowsIn(texts))).toEqual(['one/a.ts', 'b.ts', 'c.tsx', 'one/a.ts']);
    expect(circleIn(arrowsIn(new Map([...texts, ['c.tsx', '']])))).toEqual([]);
  });
});

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
    expect(wrongs('apps/print', "import { deflate } from 'node:zlib';")).toEqual(['node:zlib']);
    expect(wrongs('packages/plate', "import { solve } from '../../survey/src/solve.js';")).toHaveLength(1);
    expect(wrongs('apps/cli', "import { readFileSync } from 'node:fs';")).toEqual([]);
  });
});

/** The study with all below it and print, as a page would bundle them: nothing is put in the place of a Node module. */
const forBrowser = async (entry: string) =>
  await build({
    stdin: { contents: entry, resolveDir: import.meta.dirname },
    bundle: true,
    platform: 'browser',
    format: 'iife',
    globalName: 'fayplate',
    conditions: ['@fayplate/source'],
    write: false,
    metafile: true,
    logLevel: 'silent',
  });

interface Rooms {
  readonly answer: typeof answer;
  readonly sheets: typeof sheets;
  readonly press: typeof press;
  readonly lettering: typeof lettering;
}

const pump = readFileSync(join(root, 'examples/lift-pump/job.yaml'), 'utf8');
const font = (name: string): ArrayBuffer => {
  const bytes = readFileSync(join(root, 'apps/cli/node_modules/dejavu-fonts-ttf/ttf', name));
  return bytes.buffer.slice(bytes.byteOffset, bytes.byteOffset + bytes.byteLength);
};

/** The packet's files as bytes, made by these rooms. */
const packetBy = async (rooms: Rooms): Promise<ReadonlyMap<string, string>> => {
  const letters = Promise.resolve(
    rooms.lettering({ regular: font('DejaVuSansCondensed.ttf'), bold: font('DejaVuSansCondensed-Bold.ttf') }),
  );
  const world = {
    lettering: () => letters,
    sheets: () => Promise.resolve(rooms.sheets),
    press: () => Promise.resolve(rooms.press(() => letters)),
  };
  const found = await rooms.answer(pump, 'packet', { out: 'packet' }, world);
  expect([found.exit, found.error, found.thrown]).toEqual([0, null, undefined]);
  return new Map(found.files.map((f) => [f.name, Buffer.from(f.content).toString('latin1')]));
};

describe('a browser is enough', () => {
  test('for a whole packet, which is the same to the byte as on the command line', async () => {
    const { outputFiles, metafile } = await forBrowser(
      "export { answer } from '@fayplate/study'; export { press, sheets } from '@fayplate/print'; export { " +
        "lettering } from '@fayplate/drawing';",
    );
    // A module that a package switches off for browsers would be named '(disabled):…'.
    expect(Object.keys(metafile.inputs).filter((i) => i.startsWith('(disabled)'))).toEqual([]);
    expect(Object.values(metafile.outputs).flatMap((o) => o.imports)).toEqual([]);
    // The language, and of a browser only what the rooms use: no process, no Buffer, no require.
    const page = createContext({ TextDecoder, setTimeout, clearTimeout });
    runInContext(outputFiles[0]?.text ?? '', page);
    const inPage = await packetBy((page as { fayplate: Rooms }).fayplate);
    const here = await packetBy({ answer, sheets, press, lettering });
    expect([...inPage.keys()]).toContain('packet.pdf');
    for (const [name, bytes] of here) expect([name, inPage.get(name) === bytes]).toEqual([name, true]);
    expect(inPage.size).toBe(here.size);
  });

  test('and a Node module among the rooms would be seen', async () => {
    await expect(forBrowser("import { deflate } from 'node:zlib'; console.log(deflate);")).rejects.toThrow('node:zlib');
  });
});
