import { readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { parse } from 'acorn';
import { transform } from 'esbuild';
import { beforeAll, expect, test } from 'vitest';
import { root } from './support/cli.js';

// The checker's own JavaScript; without this it looks for a Java program first.
process.env['RECHECK_BACKEND'] = 'pure';
const { checkSync } = await import('recheck');

interface Expression {
  readonly file: string;
  readonly pattern: string;
  readonly flags: string;
}

interface Syntax {
  readonly type?: string;
  readonly regex?: { readonly pattern: string; readonly flags: string };
  readonly callee?: { readonly name?: string };
}

/** Every node of a syntax tree. */
const nodes = (at: unknown): readonly Syntax[] => {
  if (at === null || typeof at !== 'object') return [];
  const below = Object.values(at).flatMap(nodes);
  return 'type' in at ? [at as Syntax, ...below] : below;
};

const treeOf = async (source: string): Promise<readonly Syntax[]> =>
  nodes(
    parse((await transform(source, { loader: 'ts', format: 'esm', target: 'es2023' })).code, {
      ecmaVersion: 'latest',
      sourceType: 'module',
    }),
  );

const sources = ['packages', 'apps'].flatMap((top) =>
  readdirSync(join(root, top)).flatMap((room) =>
    readdirSync(join(root, top, room, 'src'), { recursive: true, encoding: 'utf8' }).flatMap((f) =>
      f.endsWith('.ts') ? [`${top}/${room}/src/${f}`] : [],
    ),
  ),
);

const expressions = new Map<string, Expression>();
const built: string[] = [];
beforeAll(async () => {
  for (const file of sources) {
    for (const { type, regex, callee } of await treeOf(readFileSync(join(root, file), 'utf8'))) {
      if (type === 'Literal' && regex !== undefined)
        expressions.set(`/${regex.pattern}/${regex.flags}`, { file, ...regex });
      if (callee?.name === 'RegExp') built.push(file);
    }
  }
});

const isLinear = (pattern: string, flags: string): boolean => {
  // Letters as sets (`v`) are of no account for time. It counts steps, by no clock: a busy machine gives the same
  // answer.
  const { status } = checkSync(pattern, flags.replace('v', 'u'), {
    randomSeed: 1,
    timeout: null,
    seedingTimeout: null,
    attackTimeout: null,
    incubationTimeout: null,
    // A text of 6,000 characters that takes ten million steps is attacked: linear work of a hundred steps a character
    // is not.
    attackLimit: 10_000_000,
    maxAttackStringSize: 6_000,
  });
  return status === 'safe';
};

// Judged by recheck, an analyser of regular expressions for super-linear time: an automaton of each, and where that
// cannot be had, attacks on it.
test('no regular expression takes more than linear time, whatever it is given', () => {
  expect(expressions.size).toBeGreaterThan(150);
  expect(
    [...expressions]
      .filter(([, { pattern, flags }]) => !isLinear(pattern, flags))
      .map(([text, { file }]) => `${file}: ${text}`),
  ).toEqual([]);
});

test('none is put together from strings, where it could not be judged', () => expect(built).toEqual([]));

test('one that is quadratic and one that is exponential are seen', () => {
  expect(isLinear('\\s+$', '')).toBe(false);
  expect(isLinear('^(a+)+$', '')).toBe(false);
  expect(isLinear('^ *a+$', '')).toBe(true);
});
